using System.Collections.Immutable;
using AirwayGuard.Core.Judging;
using AirwayGuard.Rules.Reading;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules.Comparing;

/// <summary>Changes of what holds at each age; ages that share one change become one sentence.</summary>
internal static class CellChanges
{
    /// <param name="aspect">One of <see cref="Aspects"/>.</param>
    /// <param name="subject">What the limit is of, in lower case, such as <c>vacuum ceiling</c>.</param>
    /// <param name="from">What holds at an age in the first set.</param>
    /// <param name="to">The same in the other.</param>
    public static IEnumerable<Change> Of(string aspect, string subject, Func<AgeBand, Cell> from, Func<AgeBand, Cell> to)
    {
        var rows = Words.Bands.Select(band => new Row(band.Value, from(band.Value), to(band.Value))).Where(row => !row.From.IsSameAs(row.To)).ToList();
        while (rows.Count > 0)
        {
            var first = rows[0];
            var group = rows.Where(row => row.From.HoldsAs(first.From) && row.To.HoldsAs(first.To)).ToList();
            rows.RemoveAll(group.Contains);
            yield return One(aspect, subject, group);
        }
    }

    /// <summary>The subject with its ages in front, or behind it that it holds for all.</summary>
    public static string WithAges(string subject, ImmutableArray<AgeBand> bands) =>
        bands.Length == Words.Bands.Length ? $"{ClinicalWords.Capital(subject)}, all ages" : $"{ClinicalWords.Ages(bands)} {subject}";

    private static Change One(string aspect, string subject, List<Row> group)
    {
        var (from, to) = (group[0].From, group[0].To);
        ImmutableArray<AgeBand> bands = [.. group.Select(row => row.Band)];
        var isSame = from.HoldsAs(to);
        var (was, now) = (Grounds(group, row => row.From), Grounds(group, row => row.To));
        var what = isSame ? $"{from.Passes} stays, {Rests(was, now)}" : $"{from.Passes} becomes {to.Passes}";
        return new Change(
            aspect, bands, $"{WithAges(subject, bands)}: {what}", isSame ? Direction.Neither : from.To(to),
            from.Passes, to.Passes)
        {
            IsSameNumber = isSame,
            Was = was,
            Now = now,
        };
    }

    private static string Rests(ImmutableArray<Ground> was, ImmutableArray<Ground> now)
    {
        var isSource = !was.Select(ground => (ground.Source, ground.Title)).SequenceEqual(now.Select(ground => (ground.Source, ground.Title)));
        var isStatus = !was.Select(ground => ground.Status).SequenceEqual(now.Select(ground => ground.Status));
        return (isSource, isStatus) switch
        {
            (true, true) => $"on another source, {Standing(was)} becomes {Standing(now)}",
            (true, false) => "on another source",
            _ => $"on the same source, {Standing(was)} becomes {Standing(now)}",
        };
    }

    private static string Standing(ImmutableArray<Ground> grounds) =>
        ClinicalWords.Listed([.. grounds.Select(ground => ground.Status).Distinct().Select(status => ClinicalWords.Code(Words.Of(Words.Statuses, status)))]);

    private static ImmutableArray<Ground> Grounds(List<Row> group, Func<Row, Cell> side) =>
    [
        .. group.Where(row => side(row).Ground is not null)
            .GroupBy(row => side(row).Ground! with { Bands = [] })
            .Select(same => same.Key with { Bands = [.. same.Select(row => row.Band)] }),
    ];

    private sealed record Row(AgeBand Band, Cell From, Cell To);
}
