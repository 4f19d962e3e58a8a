using AirwayGuard.Core.Findings;
using AirwayGuard.Rules;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.LifeCycle;

/// <summary>A pipeline that judges by all checks of the default set; by itself a bench judges by few.</summary>
public abstract class AllChecksLifeCycle : IAsyncLifetime
{
    protected PipelineBench Bench { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        Bench = await PipelineBench.StartAsync(Ward.Morning);
        Bench.Basis = Bench.Basis with { Rules = ShippedRuleSets.Load(ShippedRuleSets.Default).RuleSet! };
        await Bench.RestartAsync();
    }

    public async ValueTask DisposeAsync()
    {
        await Bench.DisposeAsync();
        GC.SuppressFinalize(this);
    }

    protected async Task<IReadOnlyList<FindingRecord>> RecordsAsync(string check) => [.. (await Bench.FindingsAsync()).Where(record => record.Check == check)];

    protected async Task PutAsync(params string[] resources)
    {
        foreach (var resource in resources)
        {
            await Bench.PutAsync(resource);
        }
    }
}
