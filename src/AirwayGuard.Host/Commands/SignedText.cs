using System.Collections.Immutable;
using System.Globalization;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.SignOffs;
using AirwayGuard.Rules;

namespace AirwayGuard.Host.Commands;

/// <summary>The text of <c>rules signed</c>.</summary>
internal static class SignedText
{
    public static async Task WriteAsync(ILedgerReader reader, TextWriter output, CancellationToken stop)
    {
        var acts = await reader.SignOffsAsync(stop);
        foreach (var act in acts)
        {
            await output.WriteLineAsync(Line(act));
        }

        var sets = SetsInForce.Of(acts);
        if (sets.IsEmpty)
        {
            await output.WriteLineAsync("Nobody has promoted a rule set in this ledger: what the settings name is judged and recorded, and nothing leaves the service.");
            return;
        }

        await output.WriteLineAsync();
        if (await reader.RulesAsync(sets[^1], stop) is not { } kept || RuleSetReader.Read(kept.Utf8, "ledger").RuleSet is not { } rules)
        {
            await output.WriteLineAsync("The rule set in force cannot be read by this release.");
            return;
        }

        await output.WriteLineAsync($"In force: {rules.Name} {rules.Version}, sha256 {rules.Sha256}");
        var signed = SignedOff.Of(acts, rules.Sha256);
        await output.WriteLineAsync($"Everywhere: {Speaking(signed.At(rules, []), rules)}");
        foreach (var unit in signed.Acts.SelectMany(static act => act.Units).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal))
        {
            await output.WriteLineAsync($"{unit}: {Speaking(signed.At(rules, [unit]), rules)}");
        }

        await output.WriteLineAsync("Where AirwayGuard:Mode is silent, nothing leaves the service all the same.");
    }

    private static string Line(SignOff act)
    {
        var what = act.Act switch { SignOffAct.Promote => "promoted ", SignOffAct.Withdraw => "withdrawn", _ => "restored " };
        var scope = (act.Checks.IsEmpty ? "all checks" : string.Join(", ", act.Checks)) + (act.Units.IsEmpty ? "" : $" in {string.Join(", ", act.Units)}");
        return string.Create(
            CultureInfo.InvariantCulture, $"{act.At.UtcDateTime:yyyy-MM-dd HH:mm} UTC  {what}  {act.Name} {act.Version} ({act.Sha256[..12]})  {(act.Act == SignOffAct.Restore ? "as it spoke before" : scope)}  by {act.By}: {act.Reason}");
    }

    private static string Speaking(RuleSet there, RuleSet rules)
    {
        var able = rules.Rules.Where(static rule => rule.Mode == Mode.Live).Select(static rule => rule.Id).ToList();
        var speaking = there.Rules.Where(static rule => rule.Mode == Mode.Live).Select(static rule => rule.Id).ToImmutableArray();
        return speaking.IsEmpty ? "no check speaks."
            : speaking.Length == able.Count ? string.Create(CultureInfo.InvariantCulture, $"all {able.Count} checks speak.")
            : speaking.Length <= able.Count / 2 ? string.Create(CultureInfo.InvariantCulture, $"{speaking.Length} of {able.Count} checks speak: {string.Join(", ", speaking)}.")
            : string.Create(CultureInfo.InvariantCulture, $"{speaking.Length} of {able.Count} checks speak, all but {string.Join(", ", able.Except(speaking, StringComparer.Ordinal))}.");
    }
}
