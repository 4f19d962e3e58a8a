using System.Net;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Fhir.Intake;

/// <summary>
/// Rows whose code stands in a component alone. A search by <c>code</c> does not find them: where the server offers it, it is
/// asked by <c>combo-code</c>; else it is said that they are not seen. What was asked by <c>code</c> only, because the server did
/// not say in time what it offers, is asked from the beginning once it does.
/// </summary>
internal sealed class ComponentRows(ServerOffer offer, TimeProvider clock)
{
    private static readonly TimeSpan UnsaidFor = TimeSpan.FromMinutes(5);

    private readonly HashSet<string> _unseen = new(StringComparer.Ordinal);
    private DateTimeOffset _unsaidUntil;

    /// <summary>The question as it is to be asked of this server.</summary>
    public async ValueTask<SweepQuery> AskedAsync(SweepQuery query, CancellationToken stop) =>
        query.ReadsComponents && await OffersAsync(query, stop) ? query with { CodeName = SweepQuery.InComponentsToo } : query;

    /// <summary>From when on to ask.</summary>
    public DateTimeOffset? Since(SweepQuery asked, DateTimeOffset? since) => IsByComponents(asked) && _unseen.Contains(asked.Name) ? null : since;

    /// <summary>The answer, with what a person should know of it.</summary>
    public SourcePage Answered(SweepQuery asked, SourcePage page)
    {
        if (!asked.ReadsComponents || page.Problem is not null)
        {
            return page;
        }

        if (!IsByComponents(asked))
        {
            _unseen.Add(asked.Name);
            return page with { Remarks = [.. page.Remarks, new Problem(Codes.ComponentsNotSeen, asked.Name, Codes.ComponentsNotSeen.Title)] };
        }

        if (page is { Next: null, IsComplete: true })
        {
            _unseen.Remove(asked.Name);
        }

        return page;
    }

    /// <summary>A server that offers the parameter and takes it for a fault is asked without it.</summary>
    public bool IsAskedOtherwise(SweepQuery asked, HttpStatusCode status)
    {
        var isFault = IsByComponents(asked) && status == HttpStatusCode.BadRequest;
        if (isFault)
        {
            offer.Refused(asked.Type, asked.CodeName);
        }

        return isFault;
    }

    private static bool IsByComponents(SweepQuery asked) => asked.CodeName == SweepQuery.InComponentsToo;

    // Whoever can be searched and does not say what can be searched by is asked by what every server has. The question what it
    // offers must not hold up the others each time.
    private async ValueTask<bool> OffersAsync(SweepQuery query, CancellationToken stop)
    {
        if (clock.GetUtcNow() < _unsaidUntil)
        {
            return false;
        }

        bool? offers;
        try
        {
            offers = await offer.SearchAsync(query.Type, SweepQuery.InComponentsToo, stop);
        }
        catch (HttpRequestException)
        {
            offers = null;
        }

        if (offers is null)
        {
            _unsaidUntil = clock.GetUtcNow() + UnsaidFor;
        }

        return offers is true;
    }
}
