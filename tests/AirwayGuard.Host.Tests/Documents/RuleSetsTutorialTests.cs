using AirwayGuard.Host.Tests.Commands;
using AirwayGuard.Host.Tests.Scenarios;
using AirwayGuard.Host.Tests.Service;
using AirwayGuard.Worker.SignOffs;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace AirwayGuard.Host.Tests.Documents;

/// <summary>Whoever follows docs/rule-sets.md from an empty folder gets what the page shows, command by command.</summary>
public sealed class RuleSetsTutorialTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task EveryCommandOfThePage_PrintsWhatThePageShows()
    {
        using var folder = new GivenFolder();
        await using var demo = await GivenService.StartAsync("demo");
        var differences = new List<string>();
        var commands = 0;
        foreach (var step in TutorialPage.Read("docs/rule-sets.md"))
        {
            if (step.File.Length > 0)
            {
                Directory.CreateDirectory(Path.GetDirectoryName(folder.Of(step.File))!);
                await File.WriteAllTextAsync(folder.Of(step.File), step.Content, Stop);
            }

            foreach (var command in step.Commands)
            {
                commands++;
                var printed = await RunAsync(command.Arguments, folder, demo);
                if (TutorialPage.Difference(command, printed) is { } other)
                {
                    differences.Add(other);
                }
            }
        }

        Assert.True(differences.Count == 0, string.Join("\n\n", differences));
        Assert.True(commands >= 12, $"only {commands} commands were found");
    }

    // The page's folders are this test's own; while the demo runs its loop takes up what is signed off.
    private static async Task<string> RunAsync(IReadOnlyList<string> arguments, GivenFolder folder, GivenService demo)
    {
        var here = arguments.Select(word => word == "my-data" ? demo.Folder
            : word.StartsWith("my-rules/", StringComparison.Ordinal) ? folder.Of(word)
            : word.StartsWith("fhir-samples/", StringComparison.Ordinal) ? Path.Combine(ScenarioFolders.Root, word["fhir-samples/".Length..]) : word).ToArray();
        var asked = InProcessCheck.RunAsync(here);
        var step = demo.Services.GetRequiredService<SignOffStep>();
        while (!asked.IsCompleted)
        {
            await step.StepAsync(Stop);
            await Task.Yield();
        }

        var (_, output, errors) = await asked;
        return (errors + output).Replace(folder.Path + Path.DirectorySeparatorChar, "", StringComparison.Ordinal);
    }
}
