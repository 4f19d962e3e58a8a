using AirwayGuard.Core.Ports;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>Pages as they would be read if a promise about them were broken.</summary>
internal sealed class SabotagedSource(IArrivalSource source, Sabotage sabotage, TimeProvider serverClock) : IArrivalSource
{
    public IReadOnlyList<string> Types => source.Types;

    public IReadOnlyList<string> Deletions => source.Deletions;

    public bool IsIndispensable(string type) => source.IsIndispensable(type);

    public async ValueTask<SourcePage> PageAsync(string type, DateTimeOffset? since, string? next, CancellationToken stop)
    {
        var page = await source.PageAsync(type, since, next, stop);
        return sabotage switch
        {
            Sabotage.TroubleTakenForEmpty when page.Problem is not null => new SourcePage([], null, serverClock.GetUtcNow(), null, null),

            // A link of the server's own begins otherwise.
            Sabotage.PagesTrusted when page.Next is ['o', ..] => page with { Next = null, IsComplete = true },
            _ => page,
        };
    }
}
