using System.Collections.Immutable;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Rules.Reading;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules.Comparing;

/// <summary>Limits that hold beside those of the ages where something is charted, and when a check does not judge at all.</summary>
internal static class CircumstanceChanges
{
    private const string None = "no limit of its own";

    public static IEnumerable<Change> Of(Side from, Side to)
    {
        var name = CheckNames.Of(to.Rule);
        foreach (var (one, two) in Pairs(from.Rule, to.Rule))
        {
            foreach (var change in CellChanges.Of(
                Aspects.Circumstance, Subject(name, (two ?? one)!), band => CellOf(one, from, band), band => CellOf(two, to, band)))
            {
                yield return change;
            }
        }
    }

    /// <summary>Of a check whose limits change: what holds in a circumstance as before, and so beside the changed limits.</summary>
    public static IEnumerable<string> Staying(Side from, Side to)
    {
        var name = CheckNames.Of(to.Rule);
        foreach (var (one, two) in Pairs(from.Rule, to.Rule))
        {
            if (one is null || two is null || Words.Bands.Any(band => !CellOf(one, from, band.Value).IsSameAs(CellOf(two, to, band.Value))))
            {
                continue;
            }

            foreach (var group in Words.Bands.Where(band => two.Limits.For(band.Value) is not null).GroupBy(band => CellOf(two, to, band.Value).Passes, StringComparer.Ordinal))
            {
                ImmutableArray<AgeBand> bands = [.. group.Select(band => band.Value)];
                yield return $"{CellChanges.WithAges(Subject(name, two), bands)}: {group.Key} stays; the stricter of it and the limit for the age holds";
            }
        }
    }

    /// <summary>The measure is that of the rule: a rule of several criteria has no circumstances.</summary>
    public static Cell CellOf(Circumstance? circumstance, Side side, AgeBand band) =>
        circumstance?.Limits.For(band) is { } limit ? Cell.Of(limit, MeasureOf(side.Rule), side) : Cell.Open(None);

    public static string Subject(string name, Circumstance circumstance) => $"{name} where {ClinicalWords.Circumstance(circumstance.When)}";

    private static Measure MeasureOf(Rule rule) => rule.Criteria[0].Measure;

    private static List<(Circumstance? From, Circumstance? To)> Pairs(Rule from, Rule to)
    {
        var rest = to.Tighten.ToList();
        var pairs = new List<(Circumstance?, Circumstance?)>();
        foreach (var one in from.Tighten)
        {
            var at = rest.FindIndex(two => GuardSets.AreSame(one.When, two.When));
            pairs.Add((one, at < 0 ? null : rest[at]));
            if (at >= 0)
            {
                rest.RemoveAt(at);
            }
        }

        return [.. pairs, .. rest.Select(added => ((Circumstance?)null, (Circumstance?)added))];
    }
}
