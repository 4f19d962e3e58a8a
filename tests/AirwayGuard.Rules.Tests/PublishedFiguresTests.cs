using AirwayGuard.Core.Judging;
using AirwayGuard.Rules.Tests.Shipped;

namespace AirwayGuard.Rules.Tests;

/// <summary>Each limit of both shipped sets against what its source says, and each such figure against the sets.</summary>
public sealed class PublishedFiguresTests
{
    private static readonly RuleSet[] Sets = [.. ShippedRuleSets.Names.Select(name => ShippedRuleSets.Load(name).RuleSet!)];
    private static readonly HeldFigure[] Held = [.. Sets.SelectMany(HeldFigure.Of)];

    public static TheoryData<string, string> Checks => [.. Sets.SelectMany(set => set.Rules.Select(rule => (set.Name, rule.Id)))];

    private static bool Says(PublishedFigure row, HeldFigure held) =>
        row.Source == held.Source && row.Measure.Split(',').Contains(held.Measure, StringComparer.Ordinal) && row.Bands.Contains(held.Band, StringComparison.Ordinal)
        && row.Breach(PublishedFigures.ItselfWithin.Contains((held.Set, held.Source, held.Measure))) == held.Breach;

    [Theory]
    [MemberData(nameof(Checks))]
    public void Every_limit_is_what_one_row_says_and_no_better_known(string set, string check)
    {
        foreach (var held in Held.Where(held => held.Set == set && held.Check == check))
        {
            var row = Assert.Single(PublishedFigures.Rows, row => Says(row, held));

            Assert.Equal(row.Status, held.Status);
        }
    }

    [Fact]
    public void Every_row_is_held_by_a_set_in_each_of_its_bands()
    {
        var idle = PublishedFigures.Rows.SelectMany(row => row.Measure.Split(',').SelectMany(measure => row.Bands.Select(band => (row, measure, band))))
            .Where(one => !Held.Any(held => held.Measure == one.measure && held.Band == one.band && Says(one.row, held)));

        Assert.Empty(idle);
    }

    [Fact]
    public void Where_the_figure_itself_is_let_stand_a_limit_does_so()
    {
        Assert.All(PublishedFigures.ItselfWithin, eased => Assert.Contains(
            Held, held => (held.Set, held.Source, held.Measure) == eased && held.Breach.StartsWith("Above ", StringComparison.Ordinal)));
    }

    [Fact]
    public void The_sets_name_the_place_where_it_is_printed()
    {
        Assert.All(Held, held =>
        {
            var title = Sets.Single(set => set.Name == held.Set).Sources.Single(source => source.Id == held.Source).Title;

            Assert.Contains(PublishedFigures.Rows.Single(row => Says(row, held)).Cited, title, StringComparison.OrdinalIgnoreCase);
        });
    }

    /// <summary>A figure from memory is told as one wherever somebody reads it: in the set, in <c>rules show</c>, on the page of checks.</summary>
    [Theory]
    [MemberData(nameof(Checks))]
    public void What_is_from_memory_is_marked_so_wherever_it_is_shown(string set, string check)
    {
        var figures = Held.Where(held => held.Set == set && held.Check == check && PublishedFigures.Rows.Single(row => Says(row, held)).Known == 'R').ToList();
        using var shown = new StringWriter();
        using var errors = new StringWriter();
        Assert.Equal(0, RulesPage.Write(ShippedRuleSets.Load(set), check, shown, errors));
        var entry = Pages.ChecksPage.Write().Split($"\n## {check}\n")[1].Split("\n## ")[0];

        // Equal limits of several bands are shown once.
        var once = figures.Select(held => (held.Measure, held.Breach, held.Source)).Distinct().Count();
        Assert.Equal(once, shown.ToString().Split("FROM MEMORY: the source was not opened").Length - 1);
        Assert.Equal(once, entry.Split('\n').Count(line => line.StartsWith($"| {set} |", StringComparison.Ordinal) && line.EndsWith("| from-memory |", StringComparison.Ordinal)));
    }
}
