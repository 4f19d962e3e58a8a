using Xunit;

namespace AirwayGuard.Host.Tests.Scenarios;

/// <summary>Every scenario of fhir-samples through the command line: what must be found, counted and said.</summary>
public sealed class ScenarioTests
{
    public static TheoryData<string, int> Runs()
    {
        var runs = new TheoryData<string, int>();
        foreach (var folder in ScenarioFolders.All)
        {
            for (var i = 0; i < ExpectedScenario.Read(folder).Runs.Length; i++)
            {
                runs.Add(Path.GetFileName(folder), i);
            }
        }

        return runs;
    }

    [Theory]
    [MemberData(nameof(Runs))]
    public async Task AScenarioGivesWhatItExpects(string name, int run)
    {
        var folder = ScenarioFolders.All.Single(one => Path.GetFileName(one) == name);
        var differences = await ScenarioRunner.RunAsync(folder, ExpectedScenario.Read(folder).Runs[run], InProcessCheck.RunAsync);
        Assert.True(differences.Count == 0, string.Join(Environment.NewLine, differences));
    }
}
