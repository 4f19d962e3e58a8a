using System.Collections.Immutable;
using System.Globalization;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Reading;

/// <summary>The document's words for what the model holds as values, in the order they are offered to an author.</summary>
internal static class Words
{
    public static readonly ImmutableArray<(string Word, AgeBand Value)> Bands =
        [("neonate", AgeBand.Neonate), ("infant", AgeBand.Infant), ("child", AgeBand.Child), ("adult", AgeBand.Adult)];

    public static readonly ImmutableArray<(string Word, Comparison Value)> Comparisons =
    [
        ("above", Comparison.Above), ("atOrAbove", Comparison.AtOrAbove), ("below", Comparison.Below), ("atOrBelow", Comparison.AtOrBelow),
        ("outside", Comparison.Outside), ("is", Comparison.Is), ("isNot", Comparison.IsNot), ("missing", Comparison.Missing),
    ];

    public static readonly ImmutableArray<(string Word, SubjectKind Value)> Subjects =
    [
        ("pass", SubjectKind.Pass), ("session", SubjectKind.Session), ("order", SubjectKind.Order), ("setting", SubjectKind.Setting),
        ("outlet", SubjectKind.Outlet), ("airway", SubjectKind.Airway), ("due", SubjectKind.Due),
        ("suctioned-airway", SubjectKind.SuctionedAirway), ("cuff", SubjectKind.Cuff),
    ];

    public static readonly ImmutableArray<(string Word, Severity Value)> Severities =
        [("low", Severity.Low), ("moderate", Severity.Moderate), ("high", Severity.High)];

    public static readonly ImmutableArray<(string Word, Standing Value)> Standings =
    [
        ("regulator", Standing.Regulator), ("episode", Standing.Episode), ("airway", Standing.Airway), ("order", Standing.Order),
        ("outlet", Standing.Outlet),
    ];

    public static readonly ImmutableArray<(string Word, SourceStatus Value)> Statuses =
    [
        ("cited", SourceStatus.Cited), ("common-practice", SourceStatus.CommonPractice), ("from-memory", SourceStatus.FromMemory),
        ("disputed", SourceStatus.Disputed),
    ];

    public static readonly ImmutableArray<(string Word, Mode Value)> Modes = [("live", Mode.Live), ("silent", Mode.Silent)];

    public static readonly ImmutableArray<(string Word, bool Value)> YesNo = [("yes", true), ("no", false)];

    public static bool TryFind<T>(ImmutableArray<(string Word, T Value)> table, string word, out T value)
    {
        foreach (var row in table)
        {
            if (string.Equals(row.Word, word, StringComparison.Ordinal))
            {
                value = row.Value;
                return true;
            }
        }

        value = default!;
        return false;
    }

    public static string Of<T>(ImmutableArray<(string Word, T Value)> table, T value) =>
        table.First(row => EqualityComparer<T>.Default.Equals(row.Value, value)).Word;

    public static string Listed<T>(ImmutableArray<(string Word, T Value)> table) => Listed(table.Select(row => row.Word));

    /// <summary><c>Allowed: a, b, c.</c></summary>
    public static string Listed(IEnumerable<string> words) => $"Allowed: {string.Join(", ", words)}.";

    /// <summary>A word of the document in a message: shortened, in quotes, on one line.</summary>
    public static string Quote(string word)
    {
        const int Most = 40;
        var oneLine = string.Concat(word.Select(c => char.IsControl(c) ? ' ' : c));
        return oneLine.Length <= Most ? $"'{oneLine}'" : $"'{oneLine[..Most]}…'";
    }

    /// <summary>A number without trailing zeros, with a dot.</summary>
    public static string Number(decimal number) => number.ToString("0.############################", CultureInfo.InvariantCulture);

    /// <summary>Nothing, or a near word as a question to end a sentence with.</summary>
    public static string DidYouMean(string word, IEnumerable<string> known) =>
        NearWord.Find(word, known) is { } near ? $" Did you mean {near}?" : "";
}
