using System.Collections.Immutable;
using System.Globalization;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Cases;

/// <summary>Reads what must come of a case: <c>vacuum-above-ceiling at 10:05</c>, or the same with more keys.</summary>
internal sealed class CaseExpectations(Faults faults)
{
    private const string At = " at ";

    private static readonly ImmutableArray<string> FindingKeys = ["check", "at", "latest", "severity", "value", "count", "band", "state", "withheld", "flag"];
    private static readonly ImmutableArray<string> OpenKeys = ["check", "at", "missing", "count"];
    private static readonly ImmutableArray<(string Word, bool Value)> States = [("open", true), ("cleared", false)];

    public ImmutableArray<CaseFinding> Finds(Keys keys) =>
        [.. Items(keys, "finds").Select(Finding).OfType<CaseFinding>()];

    public ImmutableArray<CaseOpen> CannotTell(Keys keys) =>
        [.. Items(keys, "cannot-tell").Select(Open).OfType<CaseOpen>()];

    private static IReadOnlyList<Node> Items(Keys keys, string key) => keys.Find(key) is { } entry ? keys.Items(entry.Value, key) : [];

    private CaseFinding? Finding(Node node)
    {
        if (node is TextNode { IsBlank: false } text)
        {
            var (check, at) = Short(text);
            return new CaseFinding(check, at, null, null, null, null, null, null, null, false, null);
        }

        if (Keys.Of(node, faults, "A finding", FindingKeys) is not { } keys || !keys.TryRequiredText("check", "A finding", out var id))
        {
            return null;
        }

        var (amount, code) = Value(keys);
        return new CaseFinding(
            id.Text, TimeOf(keys, "at"), TimeOf(keys, "latest"),
            keys.Has("severity") ? keys.Word("severity", Words.Severities, Codes.RuleSeverityUnknown, Severity.Low) : null,
            amount, code, CountOf(keys),
            keys.Has("band") ? keys.Word("band", Words.Bands, Codes.CaseWordUnknown, AgeBand.Adult) : null,
            keys.Has("state") ? keys.Word("state", States, Codes.CaseWordUnknown, true) : null,
            keys.Word("withheld", Words.YesNo, Codes.CaseWordUnknown, false),
            keys.Has("flag") ? keys.Word("flag", Words.YesNo, Codes.CaseWordUnknown, true) : null);
    }

    private CaseOpen? Open(Node node)
    {
        if (node is TextNode { IsBlank: false } text)
        {
            var (check, at) = Short(text);
            return new CaseOpen(check, at, null, null);
        }

        return Keys.Of(node, faults, "What cannot be told", OpenKeys) is { } keys && keys.TryRequiredText("check", "What cannot be told", out var id)
            ? new CaseOpen(id.Text, TimeOf(keys, "at"), keys.TryText("missing", out var missing) ? missing.Text.Trim() : null, CountOf(keys))
            : null;
    }

    private (string Check, long? At) Short(TextNode text)
    {
        var at = text.Text.IndexOf(At, StringComparison.Ordinal);
        if (at < 0)
        {
            return (text.Text.Trim(), null);
        }

        return (text.Text[..at].Trim(), Time(new TextNode(text.At, text.Text[(at + At.Length)..])));
    }

    // A number with the unit it is shown in, or a code.
    private static (CaseAmount? Amount, string? Code) Value(Keys keys)
    {
        if (!keys.TryText("value", out var text))
        {
            return (null, null);
        }

        var (number, rest) = Amount.SplitAtSpace(text.Text.Trim());
        if (!Amount.TryNumber(number, out var amount))
        {
            return (null, text.Text.Trim());
        }

        return (new CaseAmount(amount, Units.FromText(rest)), null);
    }

    private int? CountOf(Keys keys)
    {
        if (!keys.TryText("count", out var text))
        {
            return null;
        }

        if (int.TryParse(text.Text, NumberStyles.None, CultureInfo.InvariantCulture, out var count) && count > 0)
        {
            return count;
        }

        faults.Add(Codes.CaseWordUnknown, text.At, $"count is {Words.Quote(text.Text)}.", "Write a whole number from 1.");
        return null;
    }

    private long? TimeOf(Keys keys, string key) => keys.TryText(key, out var text) ? Time(text) : null;

    private long? Time(TextNode text)
    {
        if (CaseTime.TryRead(text.Text, out var ticks))
        {
            return ticks;
        }

        faults.Add(Codes.CaseTimeUnreadable, text.At, $"The time is {Words.Quote(text.Text)}.", CaseTime.Example);
        return null;
    }
}
