using System.Collections.Immutable;
using System.Globalization;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.SignOffs;
using AirwayGuard.Rules;

namespace AirwayGuard.Worker.SignOffs;

/// <summary>
/// Does what named persons ask of rule sets, or says why not. A set that is refused changes nothing: the one in force stays in force.
/// </summary>
public sealed class SignOffDesk(ILedger ledger, TimeProvider clock)
{
    private const int LongestName = 100;
    private const int LongestReason = 500;

    public async ValueTask<SignOffAnswer> ApplyAsync(SignOffRequest request, CancellationToken stop)
    {
        if (PersonOf(request) is { } wrong)
        {
            return wrong;
        }

        var acts = await ledger.SignOffsAsync(stop);
        return request.Act switch
        {
            SignOffAct.Promote => await PromoteAsync(request, acts, stop),
            SignOffAct.Withdraw => await WithdrawAsync(request, acts, stop),
            _ => await RestoreAsync(request, acts, stop),
        };
    }

    private static SignOffAnswer? PersonOf(SignOffRequest request) =>
        !IsLine(request.By, LongestName) ? SignOffAnswer.Refused(Codes.SignOffNeedsAPerson, "--by", $"it takes a name of 1 to {LongestName} characters")
        : !IsLine(request.Reason, LongestReason) ? SignOffAnswer.Refused(Codes.SignOffNeedsAPerson, "--reason", $"it takes 1 to {LongestReason} characters on one line")
        : request.Units.FirstOrDefault(unit => !IsPlace(unit)) is { } unit ? SignOffAnswer.Refused(Codes.SignOffUnitWrong, "--unit", $"'{unit[..Math.Min(unit.Length, 40)]}' is no Location/id")
        : null;

    private static bool IsLine(string text, int most) => text.Trim() is { Length: > 0 } line && line.Length <= most && !line.Any(static sign => char.IsControl(sign) || char.GetUnicodeCategory(sign) is UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator);

    private static bool IsPlace(string unit) =>
        unit.StartsWith("Location/", StringComparison.Ordinal) && unit.Length is > 9 and <= 73 && unit.AsSpan(9).IndexOfAnyExcept(IdCharacters) < 0;

    private static readonly System.Buffers.SearchValues<char> IdCharacters =
        System.Buffers.SearchValues.Create("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-.");

    private async ValueTask<SignOffAnswer> PromoteAsync(SignOffRequest request, IReadOnlyList<SignOff> acts, CancellationToken stop)
    {
        var reading = RuleSetReader.Read(request.Document, request.File);
        if (reading.RuleSet is not { } set)
        {
            var first = reading.Faults[0];
            return SignOffAnswer.Refused(Codes.SignOffOfFaulty, request.File, string.Create(
                CultureInfo.InvariantCulture, $"it has {reading.Faults.Count} fault{(reading.Faults.Count == 1 ? "" : "s")}, first {first.Code.Id} at line {first.Line}; what is in force stays in force"));
        }

        // What was signed as a version stays that version: else nobody could say what was signed.
        if (acts.FirstOrDefault(act => act.Name == set.Name && act.Version == set.Version && act.Sha256 != set.Sha256) is { } other)
        {
            return SignOffAnswer.Refused(
                Codes.SignOffOfAnother, request.File, $"{set.Name} {set.Version} was signed off with other content on {Day(other.At)} (sha256 {other.Sha256[..12]}…, this one {set.Sha256[..12]}…)");
        }

        if ((UnknownCheck(request, set) ?? SilentCheck(request, set)) is { } wrong)
        {
            return wrong;
        }

        var act = ActOf(request, set.Name, set.Version, set.Sha256);
        var replaced = await ReplacedAsync(acts, act, set, stop);
        await ledger.SignOffAsync(act, new RuleDocument(set.Sha256, reading.Document), stop);
        return SignOffAnswer.Done(
            $"{set.Name} {set.Version} is in force, and {Scope(act)} speak{(act.Checks.Length == 1 ? "s" : "")}. Signed off by {act.By}.{replaced}{await UnmetAsync(act, stop)}");
    }

    private async ValueTask<SignOffAnswer> WithdrawAsync(SignOffRequest request, IReadOnlyList<SignOff> acts, CancellationToken stop)
    {
        var sets = SetsInForce.Of(acts);
        var set = sets.IsEmpty ? null : await RulesInForce.ReadAsync(ledger, sets[^1], stop);
        if (set is null || !SignedOff.Of(acts, set.Sha256).AnySpeaks(set))
        {
            return SignOffAnswer.Refused(Codes.SignOffNothing, "rules withdraw", set is null ? "no rule set was promoted that this release can read" : $"no check of {set.Name} {set.Version} speaks");
        }

        if (UnknownCheck(request, set) is { } unknown)
        {
            return unknown;
        }

        var act = ActOf(request, set.Name, set.Version, set.Sha256);
        await ledger.SignOffAsync(act, null, stop);
        return SignOffAnswer.Done($"{set.Name} {set.Version}: {Scope(act)} no longer speak{(act.Checks.Length == 1 ? "s" : "")}; all is judged and recorded as before. Withdrawn by {act.By}.{await UnmetAsync(act, stop)}");
    }

    private async ValueTask<SignOffAnswer> RestoreAsync(SignOffRequest request, IReadOnlyList<SignOff> acts, CancellationToken stop)
    {
        var sets = SetsInForce.Of(acts);
        if (sets.Length < 2)
        {
            return SignOffAnswer.Refused(Codes.SignOffNothing, "rules restore", "no other rule set was in force before this one");
        }

        var before = acts.Last(act => act.Sha256 == sets[^2]);
        var act = ActOf(request, before.Name, before.Version, before.Sha256);
        await ledger.SignOffAsync(act, null, stop);
        return SignOffAnswer.Done($"{act.Name} {act.Version} is in force again, and speaks where it spoke. Restored by {act.By}.");
    }

    // Whoever lets a new set speak here or there must hear what it silences elsewhere.
    private async ValueTask<string> ReplacedAsync(IReadOnlyList<SignOff> acts, SignOff act, RuleSet set, CancellationToken stop)
    {
        var sets = SetsInForce.Of(acts);
        if (sets.IsEmpty || sets[^1] == act.Sha256 || await RulesInForce.ReadAsync(ledger, sets[^1], stop) is not { } before)
        {
            return "";
        }

        var spoke = SignedOff.Of(acts, before.Sha256).At(before, []).Rules.Where(static rule => rule.Mode == Mode.Live).Select(static rule => rule.Id).ToList();
        var speaks = SignedOff.Of([.. acts, act], act.Sha256).At(set, []).Rules.Where(static rule => rule.Mode == Mode.Live).Select(static rule => rule.Id).ToHashSet(StringComparer.Ordinal);
        var fallen = spoke.Count(check => !speaks.Contains(check));
        return fallen == 0 ? "" : string.Create(
            CultureInfo.InvariantCulture,
            $" NOTE: {before.Name} {before.Version} is no longer in force; of the {spoke.Count} of its checks that spoke everywhere {fallen} fall silent where this does not name them, and their Flags end there.");
    }

    // A slip in a unit's name is taken for a ward that was never silenced.
    private async ValueTask<string> UnmetAsync(SignOff act, CancellationToken stop)
    {
        if (act.Units.IsEmpty)
        {
            return "";
        }

        var known = (await ledger.StandingAsync("Location", stop)).Select(static place => "Location/" + place.Id).ToHashSet(StringComparer.Ordinal);
        var unmet = act.Units.Where(unit => !known.Contains(unit)).ToList();
        return unmet.Count == 0 ? "" : $" NOTE: no Location of this name has been read from the server: {string.Join(", ", unmet)}. Is it spelled as encounters name it?";
    }

    private static SignOffAnswer? SilentCheck(SignOffRequest request, RuleSet set) =>
        request.Checks.FirstOrDefault(check => set.Find(check) is { Mode: Mode.Silent }) is { } silent
            ? SignOffAnswer.Refused(Codes.SignOffOfSilent, "--check", $"{set.Name} silences {silent} itself")
            : null;

    private static SignOffAnswer? UnknownCheck(SignOffRequest request, RuleSet set)
    {
        if (request.Checks.FirstOrDefault(check => set.Find(check) is null) is not { } unknown)
        {
            return null;
        }

        var near = NearWord.Find(unknown, set.Rules.Select(rule => rule.Id)) is { } word ? $"; did you mean {word}?" : "";
        return SignOffAnswer.Refused(Codes.RuleUnknown, "--check", $"{set.Name} has no check '{unknown[..Math.Min(unknown.Length, 40)]}'{near}");
    }

    private SignOff ActOf(SignOffRequest request, string name, string version, string sha256) => new(
        clock.GetUtcNow(), request.Act, name, version, sha256, [.. request.Checks.Distinct(StringComparer.Ordinal)], [.. request.Units.Distinct(StringComparer.Ordinal)],
        request.By.Trim(), request.Reason.Trim());

    private static string Scope(SignOff act) =>
        (act.Checks.IsEmpty ? "all its checks" : string.Join(", ", act.Checks)) + (act.Units.IsEmpty ? "" : $" in {string.Join(", ", act.Units)}");

    private static string Day(DateTimeOffset at) => at.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
