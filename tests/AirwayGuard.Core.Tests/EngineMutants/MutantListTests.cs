using System.Globalization;
using AirwayGuard.TestKit.EngineMutants;
using Xunit;

namespace AirwayGuard.Core.Tests.EngineMutants;

/// <summary>The list of small changes to the judging stays as true as the sources it is about. Making them is left to the verb of the benchmarks.</summary>
public sealed class MutantListTests
{
    /// <summary>Files among the measures that decide nothing of a patient by themselves.</summary>
    private static readonly string[] DecideNothing =
        ["DueTimes.cs", "Measure.cs", "MeasureCatalog.cs", "Measured.cs", "Missing.cs", "MissingWords.cs", "UnreadDiameter.cs"];

    private static readonly string Page = File.ReadAllText(Path.Combine(Root(), "docs", "quality.md"));

    [Fact]
    public void Every_passage_occurs_exactly_once_in_its_file()
    {
        var sources = MutantList.All.Select(mutant => mutant.File).Distinct(StringComparer.Ordinal).ToDictionary(file => file, Source, StringComparer.Ordinal);

        Assert.Empty(MutantList.All.Where(mutant => mutant.Occurrences(sources[mutant.File]) != 1).Select(mutant => $"{mutant.Id}: not once in {mutant.File}"));
        Assert.All(MutantList.All, mutant => Assert.NotEqual(mutant.Passage, mutant.Becomes, StringComparer.Ordinal));
    }

    [Fact]
    public void A_passage_that_overlaps_itself_is_counted_each_time() =>
        Assert.Equal(2, new EngineMutant("one", "One.cs", "a a", "b", "").Occurrences("a a a"));

    [Fact]
    public void No_two_have_one_name_or_make_one_source()
    {
        Assert.Equal(MutantList.All.Length, MutantList.All.Select(mutant => mutant.Id).Distinct(StringComparer.Ordinal).Count());
        Assert.Equal(MutantList.All.Length, MutantList.All.Select(mutant => (mutant.File, mutant.Make(Source(mutant.File)))).Distinct().Count());
    }

    [Fact]
    public void Every_measure_that_decides_something_has_one() =>
        Assert.Equal(
            DecideNothing,
            Directory.EnumerateFiles(Path.Combine(Root(), EngineMutant.Core, "Measures")).Select(file => Path.GetFileName(file))
                .Where(file => !MutantList.All.Any(mutant => mutant.File == $"Measures/{file}")).Order(StringComparer.Ordinal),
            StringComparer.Ordinal);

    [Fact]
    public void The_page_has_a_row_for_each_and_no_other()
    {
        var rows = Page.Split('\n').Where(line => line.StartsWith("| `", StringComparison.Ordinal)).Select(line => line.Split('`')[1]).Where(word => !word.Contains('/', StringComparison.Ordinal));

        Assert.Equal(MutantList.All.Select(mutant => mutant.Id), rows, StringComparer.Ordinal);
    }

    [Fact]
    public void The_page_says_how_many_there_are()
    {
        var count = MutantList.All.Length.ToString(CultureInfo.InvariantCulture);
        Assert.Contains($"{count} of {count}", Page, StringComparison.Ordinal);
    }

    private static string Source(string file) => File.ReadAllText(Path.Combine(Root(), EngineMutant.Core, file));

    private static string Root()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "AirwayGuard.sln")))
            {
                return folder.FullName;
            }
        }

        throw new DirectoryNotFoundException("No folder above the tests holds AirwayGuard.sln.");
    }
}
