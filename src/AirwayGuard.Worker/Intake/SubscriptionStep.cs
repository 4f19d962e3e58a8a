using System.Globalization;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Intake;
using Microsoft.Extensions.Logging;

namespace AirwayGuard.Worker.Intake;

/// <summary>
/// Keeps a Subscription per question at the server: the ledger remembers its id, so that a restart writes it over with a fresh
/// token instead of leaving it. Watches them and asks anew for stopped ones. Charting arrives by sweep whether or not any of this works.
/// </summary>
/// <param name="ownAddress">Where the server reaches us, ending in a slash.</param>
/// <param name="newToken">Gives 32 random bytes as text.</param>
public sealed partial class SubscriptionStep(
    SubscriptionClient client, ILedger ledger, IReadOnlyList<SweepQuery> queries, NotifyDoor door, Uri ownAddress, IntakeOptions options, Func<string> newToken,
    NoticeBoard board, IntakeHealth health, TimeProvider clock, ILogger<SubscriptionStep> logger, ServerContact? contact = null) : IStep
{
    private static readonly TimeSpan WatchEvery = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan RefusedFor = TimeSpan.FromMinutes(15);

    private readonly Dictionary<string, Watch> _watches = queries.ToDictionary(query => query.Channel, static _ => new Watch(), StringComparer.Ordinal);
    private bool _isTidy;
    private bool _isSilent;

    public string Name => "subscriptions";

    /// <summary>How many the server accepted.</summary>
    public int Accepted => _watches.Values.Count(watch => watch.IsMade);

    public async ValueTask<StepResult> StepAsync(CancellationToken stop)
    {
        var now = clock.GetUtcNow();
        LookAnewAfterSilence();
        foreach (var query in queries)
        {
            var watch = _watches[query.Channel];
            if (now >= watch.NextLook)
            {
                watch.NextLook = now + WatchEvery;
                await LookAsync(query, watch, now, stop);
                return StepResult.DidWork;
            }
        }

        if (!_isTidy)
        {
            _isTidy = true;
            await TidyAsync(now, stop);
        }

        return StepResult.Idle;
    }

    // What was refused with all the rest says nothing of Subscriptions.
    private void LookAnewAfterSilence()
    {
        var wasSilent = _isSilent;
        _isSilent = contact?.Silence is not null;
        if (wasSilent && !_isSilent)
        {
            foreach (var watch in _watches.Values.Where(static watch => !watch.IsMade))
            {
                watch.NextLook = default;
            }
        }
    }

    private async ValueTask LookAsync(SweepQuery query, Watch watch, DateTimeOffset now, CancellationToken stop)
    {
        if (watch is { IsMade: true, Id: { } id })
        {
            var state = await client.StateAsync(id, stop);
            if (state == SubscriptionState.Unknown || (state == SubscriptionState.Requested && !IsOverdue(watch, now)))
            {
                return;
            }

            if (state == SubscriptionState.Active)
            {
                watch.RequestedSince = null;
                health.ClearBut(Place(query), []);
                return;
            }

            Tell(query, state == SubscriptionState.Requested ? Codes.SubscriptionNotActivated : Codes.SubscriptionStopped);
            watch.Id = state == SubscriptionState.Gone ? null : id;
        }

        await MakeAsync(query, watch, now, stop);
    }

    private bool IsOverdue(Watch watch, DateTimeOffset now) =>
        now - (watch.RequestedSince ??= now) >= TimeSpan.FromSeconds(options.ActivationSeconds);

    private async ValueTask MakeAsync(SweepQuery query, Watch watch, DateTimeOffset now, CancellationToken stop)
    {
        var (endpoint, token) = (new Uri(ownAddress, "notify/" + query.Channel), newToken());
        var known = await RememberedAsync(query.Channel, stop);
        var id = watch.Id ?? (watch.IsMade ? null : known);
        foreach (var other in await client.FindAsync(endpoint, stop))
        {
            // Nobody knows the tokens of the others.
            id ??= other;
            if (other != id)
            {
                await client.DeleteAsync(other, stop);
            }
        }

        door.Open(query.Channel, query.Name, token);

        // What changed while nobody was told is asked for now.
        board.Pull(query.Name);
        (watch.IsMade, watch.RequestedSince) = (false, now);
        var written = id is null ? SubscriptionWrite.Refused : await client.UpdateAsync(id, query.Criteria, endpoint, token, options.SubscriptionStatus, stop);
        if (written == SubscriptionWrite.Unknown)
        {
            watch.Id = id;
            return;
        }

        if (written == SubscriptionWrite.Refused)
        {
            id = await ReplaceAsync(query, watch, id, endpoint, token, now, stop);
        }

        (watch.Id, watch.IsMade) = (id, id is not null);
        if (id is not null)
        {
            health.Clear(Place(query), Codes.SubscriptionRefused);
        }

        if (id is not null && id != known)
        {
            await RememberAsync(query.Channel, id, now, stop);
        }
    }

    private async ValueTask<string?> ReplaceAsync(SweepQuery query, Watch watch, string? old, Uri endpoint, string token, DateTimeOffset now, CancellationToken stop)
    {
        if (old is not null)
        {
            await client.DeleteAsync(old, stop);
        }

        var made = await client.CreateAsync(query.Criteria, endpoint, token, options.SubscriptionStatus, stop);
        if (made.Id is null)
        {
            watch.NextLook = now + (made.IsRefused ? RefusedFor : WatchEvery);
            door.Close(query.Channel);
            // No answer says nothing of Subscriptions: it is told where it comes again while the sweep is answered.
            if (made.IsRefused || (watch.HadNoAnswer && contact?.Silence is null))
            {
                Tell(query, Codes.SubscriptionRefused);
            }
        }

        watch.HadNoAnswer = made is { Id: null, IsRefused: false };
        return made.Id;
    }

    // A map with fewer codes needs fewer channels than an earlier run made.
    private async ValueTask TidyAsync(DateTimeOffset now, CancellationToken stop)
    {
        for (var number = queries.Count(query => query.Type == "Observation") + 1; ; number++)
        {
            var channel = string.Create(CultureInfo.InvariantCulture, $"Observation-{number}");
            if (await RememberedAsync(channel, stop) is not { } id || !await client.DeleteAsync(id, stop))
            {
                return;
            }

            await RememberAsync(channel, "", now, stop);
        }
    }

    private async ValueTask<string?> RememberedAsync(string channel, CancellationToken stop) =>
        await ledger.CursorAsync("subscription:" + channel, stop) is { LastId: { Length: > 0 } id } ? id : null;

    private async ValueTask RememberAsync(string channel, string id, DateTimeOffset now, CancellationToken stop) =>
        await ledger.KeepAsync([], new SweepCursor("subscription:" + channel, now, id), stop);

    private static string Place(SweepQuery query) => "subscription " + query.Channel;

    private void Tell(SweepQuery query, DiagnosticCode code)
    {
        if (health.Report(Place(query), code))
        {
            LogTrouble(logger, code.Id, query.Channel, code.Title);
        }
    }

    [LoggerMessage(4003, LogLevel.Warning, "{Code} for {Channel}: {Title}; its charting arrives by sweep")]
    private static partial void LogTrouble(ILogger logger, string code, string channel, string title);

    /// <summary>What is known of one channel in this run.</summary>
    private sealed class Watch
    {
        public string? Id { get; set; }

        /// <summary>In this run, so that the token is known.</summary>
        public bool IsMade { get; set; }

        /// <summary>When it was asked for last, nobody said whether it was accepted.</summary>
        public bool HadNoAnswer { get; set; }

        public DateTimeOffset? RequestedSince { get; set; }

        public DateTimeOffset NextLook { get; set; }
    }
}
