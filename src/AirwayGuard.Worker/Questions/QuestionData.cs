using System.Collections.Immutable;
using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Questions;
using AirwayGuard.Fhir.CdsHooks;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Worker.Questions;

/// <summary>
/// What came with a question, laid over what the ledger has. Of a patient who is followed only what is newer than the ledger's counts, and it
/// pulls the sweep forward, which believes the server alone. Of others all that the rules read must have come, or is read by the caller's leave.
/// </summary>
/// <param name="pull">Asks for a quick sweep of a type.</param>
/// <param name="server">The server's base address, as intake names it.</param>
public sealed class QuestionData(ILedger ledger, IArrivalReader reader, CodeMap map, HookFetch fetch, Action<string> pull, string server, TimeProvider clock)
{
    /// <returns>Why the question cannot be answered; null where all is there.</returns>
    internal async ValueTask<HookFault?> LayAsync(HookRequest request, OrderQuestion question, QuestionChart chart, bool isFollowed, DateTimeOffset now, CancellationToken stop)
    {
        if (isFollowed)
        {
            foreach (var resource in request.Prefetch.OrderBy(static part => part.Key, StringComparer.Ordinal).SelectMany(static part => part.Value.Resources))
            {
                await LayNewerAsync(resource, chart, now, stop);
            }

            return null;
        }

        var lacking = new List<string>();
        using var late = new CancellationTokenSource(HookFetch.Patience, clock);
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(stop, late.Token);
        var keys = HookPrefetch.Of(map, question).ToList();
        // At once: an order entry waits for the slowest, not for all of them in turn.
        var parts = await Task.WhenAll(keys.Select(key => PartAsync(key, request, stop, patience.Token).AsTask()));
        foreach (var (key, part) in keys.Zip(parts))
        {
            if (part.State == PrefetchState.Failed)
            {
                lacking.Add(key.Key);
            }

            foreach (var resource in part.Resources)
            {
                var arrival = QuestionArrivals.OfPrefetch(resource, server, now);
                chart.Lay(Read(arrival, chart), null);
            }
        }

        return lacking.Count == 0 ? null : new HookFault(
            Codes.HookDataMissing, "prefetch", string.Create(CultureInfo.InvariantCulture, $"The patient is not followed by this service, and these are missing: {string.Join(", ", lacking)}."), 412);
    }

    private async ValueTask<PrefetchPart> PartAsync(PrefetchKey key, HookRequest request, CancellationToken stop, CancellationToken patience)
    {
        var sent = request.Prefetch.GetValueOrDefault(key.Key);
        if (sent is { State: PrefetchState.Nothing } or { State: PrefetchState.Given, NextPage: null } || (sent is { State: PrefetchState.Given } && key.NewestFirst))
        {
            return sent;
        }

        if (request is not { FhirServer: not null, Access: { } access })
        {
            return PrefetchPart.Failed;
        }

        try
        {
            return await fetch.ReadAsync(key.QueryOf(request.PatientId), access, !key.NewestFirst, patience);
        }
        catch (OperationCanceledException) when (!stop.IsCancellationRequested)
        {
            return PrefetchPart.Failed;
        }
    }

    private async ValueTask LayNewerAsync(HookResource resource, QuestionChart chart, DateTimeOffset now, CancellationToken stop)
    {
        var arrival = QuestionArrivals.OfPrefetch(resource, server, now);
        var read = Read(arrival, chart);
        if (read.Reading.Self.IsNone || (read.Reading.Facts.Count == 0 && read.Reading.Links.Count == 0))
        {
            return;
        }

        var standing = chart.Entities.IsNew(read.Reading.Self) ? null : await ledger.StandingVersionAsync(read.Reading.Self, stop);
        if (standing is null || IsNewer(arrival, standing))
        {
            chart.Lay(read, standing?.RowKnown);
            pull(resource.Type);
        }
    }

    // Without a time nobody knows which came first; the ledger asked the server itself.
    private static bool IsNewer(Arrival sent, StandingVersion standing) =>
        long.TryParse(sent.Version, NumberStyles.None, CultureInfo.InvariantCulture, out var theirs) && long.TryParse(standing.Version, NumberStyles.None, CultureInfo.InvariantCulture, out var ours)
            ? theirs > ours
            : sent.KnownBy == KnownBy.ServersStamp && !string.Equals(sent.Version, standing.Version, StringComparison.Ordinal) && sent.KnownAt > standing.KnownAt;

    private ReadArrival Read(Arrival arrival, QuestionChart chart)
    {
        var reading = new Core.Ports.Reading();
        reader.Read(arrival, chart.Entities, reading);
        return new ReadArrival(arrival, reading);
    }
}
