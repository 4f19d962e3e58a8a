using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Intake;
using Microsoft.Extensions.Logging;

namespace AirwayGuard.Worker.Intake;

/// <summary>
/// Keeps a Subscription per question at the server: removes what an earlier run left, makes new ones with fresh tokens, watches
/// them and makes dead ones anew. Charting arrives by sweep whether or not any of this works.
/// </summary>
/// <param name="ownAddress">Where the server reaches us, ending in a slash.</param>
/// <param name="newToken">Gives 32 random bytes as text.</param>
public sealed partial class SubscriptionStep(
    SubscriptionClient client, IReadOnlyList<SweepQuery> queries, NotifyDoor door, Uri ownAddress, IntakeOptions options, Func<string> newToken,
    NoticeBoard board, TimeProvider clock, ILogger<SubscriptionStep> logger) : IStep
{
    private static readonly TimeSpan WatchEvery = TimeSpan.FromMinutes(1);

    private readonly Dictionary<string, string?> _ids = new(StringComparer.Ordinal);
    private readonly Dictionary<string, DateTimeOffset> _nextLook = new(StringComparer.Ordinal);

    public string Name => "subscriptions";

    /// <summary>How many the server accepted.</summary>
    public int Accepted => _ids.Values.Count(id => id is not null);

    public async ValueTask<StepResult> StepAsync(CancellationToken stop)
    {
        var now = clock.GetUtcNow();
        foreach (var query in queries)
        {
            if (now < _nextLook.GetValueOrDefault(query.Name))
            {
                continue;
            }

            _nextLook[query.Name] = now + WatchEvery;
            await LookAsync(query, stop);
            return StepResult.DidWork;
        }

        return StepResult.Idle;
    }

    private async ValueTask LookAsync(SweepQuery query, CancellationToken stop)
    {
        if (_ids.GetValueOrDefault(query.Name) is { } id)
        {
            if (await client.StateAsync(id, stop) != SubscriptionState.Dead)
            {
                return;
            }

            await client.DeleteAsync(id, stop);
        }

        var endpoint = new Uri(ownAddress, "notify/" + query.Name);
        foreach (var old in await client.FindAsync(endpoint, stop))
        {
            await client.DeleteAsync(old, stop);
        }

        var token = newToken();
        door.Open(query.Name, query.Name, token);
        _ids[query.Name] = await client.CreateAsync(query.Criteria, endpoint, token, options.SubscriptionStatus, stop);
        // What changed while nobody was told is asked for now.
        board.Pull(query.Name);
        if (_ids[query.Name] is null)
        {
            door.Close(query.Name);
            LogRefused(logger, Core.Diagnostics.Codes.SubscriptionRefused.Id, query.Name);
        }
    }

    [LoggerMessage(4003, LogLevel.Warning, "{Code}: no Subscription for {Query}; its charting arrives by sweep only")]
    private static partial void LogRefused(ILogger logger, string code, string query);
}
