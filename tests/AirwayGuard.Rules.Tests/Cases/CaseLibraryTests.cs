using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Rules.Cases;

namespace AirwayGuard.Rules.Tests.Cases;

public sealed class CaseLibraryTests : IDisposable
{
    private const string Empty = "schema: 1\ncases:\n  - { case: one, about: pass-too-long, chart: [{ at: 10:00, suction-pass: yes }] }\n";

    private readonly string _folder = Directory.CreateTempSubdirectory("airwayguard-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string Of(string name)
    {
        var path = Path.Combine(_folder, name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        return path;
    }

    private string[] Found(params string[] files)
    {
        foreach (var file in files)
        {
            File.WriteAllText(Of(file), Empty);
        }

        return [.. CaseLibrary.Beside(Of("site.yaml")).Select(file => $"{Path.GetRelativePath(_folder, file.File)} {(file.Faults.Count == 0 ? "read" : file.Faults[0].Code.Id)}")];
    }

    [Fact]
    public void Cases_stand_beside_the_set_and_in_the_folder_of_its_name() => Assert.Equal(
        ["site.cases.yaml read", Path.Combine("site.cases", "a.yml") + " read", Path.Combine("site.cases", "b.yaml") + " read"],
        Found("site.cases.yaml", "site.cases/b.yaml", "site.cases/a.yml", "other.cases.yaml", "site.yaml").Order(StringComparer.Ordinal), StringComparer.Ordinal);

    [Theory]
    [InlineData("site.cases.txt")]
    [InlineData("site.cases/a.YAML")]
    [InlineData("site.cases/inner/a.yaml")]
    public void What_lies_among_cases_and_is_not_read_is_told(string file) => Assert.EndsWith(Codes.CasesNotRead.Id, Assert.Single(Found(file)), StringComparison.Ordinal);

    [Fact]
    public void A_set_saved_with_the_short_ending_has_its_cases_too()
    {
        File.WriteAllText(Of("site.cases.yaml"), Empty);

        Assert.Single(CaseLibrary.Beside(Of("site.yml")));
    }

    [Fact]
    public void A_case_that_charts_nothing_by_the_time_it_is_judged_is_a_fault()
    {
        File.WriteAllText(Of("site.cases.yaml"), Empty.Replace("chart:", "as-of: 09:00, chart:", StringComparison.Ordinal));

        Assert.Equal(Codes.CaseChartsNothing, Assert.Single(Assert.Single(CaseLibrary.Beside(Of("site.yaml"))).Faults).Code);
    }
}
