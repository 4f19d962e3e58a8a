using AirwayGuard.TestKit.Mutation;

namespace AirwayGuard.Fhir.Tests.Mutation;

/// <summary>Real inputs, changed, through whatever reads them, always the same ones; <c>.ci/run mutation</c> takes a million others each day.</summary>
public sealed class MutationTests
{
    private static readonly Lazy<MutationInputs> Inputs = new(() => MutationInputs.Load(Samples()));

    [Theory]
    [InlineData("row", 1_500)]
    [InlineData("resource", 600)]
    [InlineData("document", 150)]
    [InlineData("judged", 30)]
    [InlineData("notice", 2_000)]
    [InlineData("rule set", 100)]
    [InlineData("query", 2_000)]
    [InlineData("condition", 2_000)]
    [InlineData("answer", 250)]
    [InlineData("written", 80)]
    [InlineData("hook", 2_000)]
    [InlineData("feedback", 1_000)]
    public void A_changed_input_breaks_nothing(string kind, int inputs)
    {
        var run = new MutationRun(Inputs.Value);

        Assert.Empty(Enumerable.Range(1, inputs).Select(seed => run.Run(seed, kind)).Where(result => result.Fault is not null).Select(result => result.ToString()));
    }

    [Fact]
    public void The_list_above_has_every_kind() =>
        Assert.Equal(["row", "resource", "document", "judged", "notice", "rule set", "query", "condition", "answer", "written", "hook", "feedback"], new MutationRun(Inputs.Value).Kinds, StringComparer.Ordinal);

    [Fact]
    public void A_seed_is_one_input_whatever_ran_before()
    {
        var (one, other) = (new MutationRun(Inputs.Value), new MutationRun(Inputs.Value));
        for (var seed = 1; seed < 300; seed++)
        {
            one.Run(seed);
        }

        var results = (One: one.Run(300), Other: other.Run(300));

        Assert.Equal(results.One.Kind, results.Other.Kind);
        Assert.Equal(results.One.Input.ToArray(), results.Other.Input.ToArray());
    }

    private static string Samples()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "AirwayGuard.sln")))
            {
                return Path.Combine(folder.FullName, "fhir-samples");
            }
        }

        throw new DirectoryNotFoundException("No folder above the tests holds AirwayGuard.sln.");
    }
}
