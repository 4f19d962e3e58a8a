using System.Collections.Immutable;
using System.Globalization;
using AirwayGuard.Core.Judging;
using AirwayGuard.Rules.Reading;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules.Comparing;

/// <summary>A comparison as a committee reads it: a sentence a change, with what each limit rests on, and the sums at the end.</summary>
internal static class CompareText
{
    private static readonly EqualityComparer<Ground> Same = EqualityComparer<Ground>.Create(
        static (one, other) => one!.IsSameAs(other!) && one.Bands.SequenceEqual(other!.Bands), static ground => ground.Source.GetHashCode(StringComparison.Ordinal));

    private const string Legend =
        "A limit is told by what passes. Stricter: more is found, or it is told sooner, more gravely or at all. Looser: the opposite.";

    public static void Write(RuleSetComparison comparison, TextWriter output)
    {
        output.WriteLine($"{Named(comparison.From)} becomes {Named(comparison.To)}");
        output.WriteLine();
        if (comparison.AreEqual)
        {
            output.WriteLine("Equal: every check stands in both, with the same limits, sources and words.");
        }
        else
        {
            output.WriteLine(Legend);
            output.WriteLine();
            foreach (var check in comparison.Checks.Where(check => check.Fate != Fate.Unchanged))
            {
                One(check, output);
            }
        }

        output.WriteLine(Sums(comparison));
        output.WriteLine(RulesPage.Caution);
    }

    /// <summary>The sums of a comparison, such as <c>3 limits looser, 1 stricter, 40 checks unchanged</c>.</summary>
    public static string Sums(RuleSetComparison comparison)
    {
        var parts = new List<string>
        {
            $"{Counted(comparison.Limits(Direction.Looser), "limit")} looser",
            Invariant($"{comparison.Limits(Direction.Stricter)} stricter"),
        };
        if (comparison.Limits(Direction.Neither) is > 0 and var neither)
        {
            parts.Add(Invariant($"{neither} neither"));
        }

        var others = (Looser: comparison.Others(Direction.Looser), Stricter: comparison.Others(Direction.Stricter), Neither: comparison.Others(Direction.Neither));
        if (others.Looser + others.Stricter + others.Neither is > 0 and var sum)
        {
            parts.Add($"{Counted(sum, "other change")} ({Invariant($"{others.Looser} looser, {others.Stricter} stricter, {others.Neither} neither")})");
        }

        AddChecks(parts, comparison.CountOf(Fate.Added), "added");
        AddChecks(parts, comparison.CountOf(Fate.Removed), "removed");
        parts.Add($"{Counted(comparison.CountOf(Fate.Unchanged), "check")} unchanged");
        return string.Join(", ", parts);
    }

    private static void AddChecks(List<string> parts, int count, string what)
    {
        if (count > 0)
        {
            parts.Add($"{Counted(count, "check")} {what}");
        }
    }

    private static string Named(RuleSetReading reading) => $"{reading.Title} ({reading.RuleSet!.Name} {reading.RuleSet.Version})";

    private static void One(CheckComparison check, TextWriter output)
    {
        var isWhole = check.Fate is Fate.Added or Fate.Removed;
        var fate = isWhole ? $": {check.Fate.ToString().ToLowerInvariant()} ({InWords(check.Direction)})" : "";
        output.WriteLine($"{ClinicalWords.Capital(check.Name)} [{check.Id}]{fate}");
        foreach (var change in check.Changes)
        {
            output.WriteLine(isWhole ? $"  {change.Sentence}" : $"  {change.Sentence} ({InWords(change.Direction)})");
            Rests(change, isWhole, output);
            if (!isWhole && change.Aspect is Aspects.Say or Aspects.SayInstead or Aspects.Do or Aspects.Clears)
            {
                output.WriteLine($"    was: {change.From}");
                output.WriteLine($"    now: {change.To}");
            }
        }

        foreach (var stays in check.Stays)
        {
            output.WriteLine($"  {stays}");
        }

        output.WriteLine();
    }

    private static void Rests(Change change, bool isWhole, TextWriter output)
    {
        if (!isWhole && change.Was.SequenceEqual(change.Now, Same))
        {
            Rests("was and now: ", change.Was, output);
            return;
        }

        Rests(isWhole ? "" : "was: ", change.Was, output);
        Rests(isWhole ? "" : "now: ", change.Now, output);
    }

    private static void Rests(string label, ImmutableArray<Ground> grounds, TextWriter output)
    {
        foreach (var ground in grounds)
        {
            var ages = grounds.Length > 1 ? $"{AgesOf(ground.Bands)}: " : "";
            output.WriteLine($"    {label}{ages}{ground.Title} [{ground.Source}]; {LimitWords.Status(ground.Status)}");
        }
    }

    private static string AgesOf(ImmutableArray<AgeBand> bands) => ClinicalWords.Listed([.. bands.Select(band => Words.Of(Words.Bands, band))]);

    private static string InWords(Direction direction) => direction.ToString().ToLowerInvariant();

    private static string Counted(int count, string what) => Invariant($"{count} {what}{(count == 1 ? "" : "s")}");

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
