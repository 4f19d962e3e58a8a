using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Sockets;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Client;
using AirwayGuard.Fhir.Reading;

namespace AirwayGuard.Fhir.Intake;

/// <summary>
/// Asks a FHIR server for what changed since a time by the server's own clock, page by page. Trouble is a value: the page then
/// holds nothing and the cursor must not move.
/// </summary>
public sealed class FhirArrivalSource : IArrivalSource
{
    /// <summary>A page is never asked larger than this.</summary>
    private const int LargestPage = 10_000;

    private readonly HttpClient _http;
    private readonly FhirGate _gate;
    private readonly int _pageSize;
    private readonly TimeProvider _clock;
    private readonly Dictionary<string, SweepQuery> _queries;
    private readonly ServerOffer _offer;
    private readonly ComponentRows _components;
    private readonly HashSet<string> _short = new(StringComparer.Ordinal);

    /// <param name="http">Has its resilience and token handlers already.</param>
    /// <param name="pageSize">Resources a page, 1 to 1000.</param>
    /// <param name="clock">For a Retry-After given as a date; never for a cursor.</param>
    public FhirArrivalSource(HttpClient http, FhirGate gate, IReadOnlyList<SweepQuery> queries, int pageSize, TimeProvider clock)
    {
        (_http, _gate, _pageSize, _clock) = (http, gate, pageSize, clock);
        _queries = queries.ToDictionary(query => query.Name, StringComparer.Ordinal);
        Types = [.. queries.Where(query => !query.AsksDeletions).Select(query => query.Name)];
        Deletions = [.. queries.Where(query => query.AsksDeletions).Select(query => query.Name)];
        _offer = new ServerOffer(http, gate, clock);
        _components = new ComponentRows(_offer, clock);
    }

    /// <inheritdoc />
    public IReadOnlyList<string> Types { get; }

    /// <inheritdoc />
    public IReadOnlyList<string> Deletions { get; }

    /// <inheritdoc />
    public bool IsIndispensable(string type) => _queries[type].IsIndispensable;

    /// <inheritdoc />
    public async ValueTask<SourcePage> PageAsync(string type, DateTimeOffset? since, string? next, CancellationToken stop)
    {
        var query = _queries[type];
        try
        {
            query = await _components.AskedAsync(query, stop);
            since = next is null ? _components.Since(query, since) : since;
            var token = next is null ? new PageToken(IsOwn: true, Sifts: false, IsWhole: false, Seen: 0, AddressOf(query, since, _pageSize)) : PageToken.Read(next);
            if (!_gate.TryAllow(token.Address, out var address, out _))
            {
                return Trouble(Codes.NextLinkOutside, type, null);
            }

            if (query.AsksDeletions && await _offer.HistoryAsync(query.Type, stop) is not true and var offered)
            {
                return offered is null ? Trouble(Codes.SweepRefused, type, null) : Trouble(Codes.DeletionsNotSeen, type, null) with { IsOffered = false };
            }

            using var request = new HttpRequestMessage(HttpMethod.Get, address);
            request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue("application/fhir+json"));
            request.Headers.TryAddWithoutValidation("Prefer", "handling=strict");
            using var response = await _http.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, stop);
            if (response.StatusCode != HttpStatusCode.OK)
            {
                var refused = response.StatusCode is HttpStatusCode.BadRequest or HttpStatusCode.Forbidden or HttpStatusCode.NotFound
                    or HttpStatusCode.MethodNotAllowed or HttpStatusCode.NotImplemented;

                // A further page that is kept no longer says nothing of the question, which is asked anew.
                refused &= next is null;
                if (refused)
                {
                    _offer.NoteRefused();
                }

                var isAskedOtherwise = _components.IsAskedOtherwise(query, response.StatusCode);
                return Trouble(refused && query.AsksDeletions ? Codes.DeletionsNotSeen : Codes.SweepRefused, type, RetryAfter.Of(response, _clock), $"HTTP {(int)response.StatusCode}") with
                {
                    IsOffered = !refused || isAskedOtherwise,
                    Status = (int)response.StatusCode,
                };
            }

            _offer.NoteAnswered();
            var body = await response.Content.ReadAsByteArrayAsync(stop);
            return _components.Answered(query, await ReadAsync(query, token, address, body, response.Headers.Date, stop));
        }
        catch (Exception trouble) when (trouble is HttpRequestException or TimeoutException || (trouble is OperationCanceledException && !stop.IsCancellationRequested)
            || trouble is Polly.ExecutionRejectedException)
        {
            // What opened our own circuit breaker tells more than that it is open.
            var isLeftAlone = trouble is Polly.CircuitBreaker.BrokenCircuitException;
            var cause = isLeftAlone ? trouble.InnerException : trouble;
            return Trouble(Codes.SweepRefused, type, null, cause is null ? "left alone for a while after it had failed" : KindOf(cause)) with { WasAsked = cause is not null };
        }
    }

    private async ValueTask<SourcePage> ReadAsync(SweepQuery query, PageToken token, Uri asked, byte[] body, DateTimeOffset? date, CancellationToken stop)
    {
        if (!BundleHead.TryRead(body, out var head))
        {
            return Trouble(Codes.SweepNotBundle, query.Name, null);
        }

        if ((head.ServerTime ?? date) is not { } time)
        {
            return Trouble(Codes.SweepTimeUnknown, query.Name, null);
        }

        var (arrivals, unusable) = (new List<Arrival>(), new List<Problem>());
        using var stream = new MemoryStream(body, writable: false);
        await foreach (var item in FhirDocuments.ReadAsync(stream, query.Name, stop))
        {
            // Some servers add an OperationOutcome entry, and not all mark it by search mode: the type tells.
            if (item.Arrival is { Type: not "OperationOutcome" } arrival)
            {
                arrivals.Add(arrival.KnownBy == KnownBy.ServersStamp ? arrival : arrival with { KnownAt = Unstamped(query, arrivals, time), KnownBy = KnownBy.Received });
            }
            else if (item.Problem is { } problem)
            {
                unusable.Add(problem);
            }
        }

        var checks = AnswerCheck.Of(query, token, asked, head, arrivals);
        var sieve = checks.Sifts ? query.Codes : [];
        var asksFor = arrivals.ToLookup(arrival => (!query.AsksDeletions || (arrival.Kind == ArrivalKind.Deletion && arrival.Type == query.Type))
            && (sieve.Count == 0 || CodeSieve.Passes(arrival.Body, sieve)));
        var kept = asksFor[true].Select(arrival => arrival with { Source = _gate.BaseAddress.AbsoluteUri }).ToList();
        var (next, doubt) = NextOf(query, token, asked, head, arrivals, unusable.Count);
        next = checks.IsTimeLeftOut
            // What a server makes of a condition it does not know is anybody's guess; without the condition it answers with all.
            ? new PageToken(IsOwn: true, checks.Sifts, IsWhole: true, Seen: 0, AddressOf(query, null, _pageSize))
            : next is { } going ? going with { Sifts = checks.Sifts } : null;
        doubt = checks.IsTimeLeftOut ? Doubt.None : doubt;
        if (doubt == Doubt.Short && _short.Add(query.Name))
        {
            // Cut on the way, or counted otherwise: asked once more, and believed if it says the same.
            return Trouble(Codes.PageCut, query.Name, null);
        }

        if (doubt == Doubt.None && next is null)
        {
            _short.Remove(query.Name);
        }

        IReadOnlyList<Problem> cut = doubt == Doubt.None ? [] : [new Problem(Codes.PageCut, query.Name, Codes.PageCut.Title)];
        return new SourcePage(kept, next?.ToString(), time, null, null)
        {
            Unusable = unusable,
            LeftOut = [.. asksFor[false]],
            Remarks = [.. checks.Remarks, .. cut],
            IsWhole = checks.IsTimeLeftOut || token.IsWhole,
            IsComplete = doubt != Doubt.CutOff,
            IsDoubted = doubt == Doubt.Short,
        };
    }

    private (PageToken? Next, Doubt Doubt) NextOf(SweepQuery query, PageToken token, Uri asked, BundleHead head, List<Arrival> arrivals, int unusable)
    {
        var (found, count) = (arrivals.Count + unusable, CountIn(asked.Query));
        var seen = token.Seen + found;
        // One that leads here once more leads nowhere.
        if (head.Next is { } link && link != asked.AbsoluteUri)
        {
            return (token with { IsOwn = false, Seen = seen, Address = link }, Doubt.None);
        }

        if (found >= count)
        {
            // A full page without a next link: ask again from the last change seen, or, where that moves nothing (one instant fills
            // the page, or the order asked for was not kept), for a larger page. Repeats are told by their version.
            return Later(query, token, arrivals, count) is { } later ? (later, Doubt.None)
                : head.Total <= seen ? (null, Doubt.None)
                : !token.IsOwn && head.Total is not null ? (null, Doubt.Short)
                : count < LargestPage ? (token with { IsOwn = true, Seen = 0, Address = Enlarged(asked, Math.Min(count * 4, LargestPage)) }, Doubt.None)
                : (null, Doubt.CutOff);
        }

        // A total may be an estimate, so it proves nothing; but where the rows go on, so does the sweep.
        return head.Total is null || head.Total <= seen ? (null, Doubt.None)
            : Later(query, token, arrivals, count) is { } rest ? (rest, Doubt.None)
            : (null, Doubt.Short);
    }

    private static PageToken? Later(SweepQuery query, PageToken token, List<Arrival> arrivals, int count)
    {
        if (token.IsWhole || arrivals.Count == 0)
        {
            return null;
        }

        var isAscending = true;
        for (var i = 1; i < arrivals.Count; i++)
        {
            isAscending &= arrivals[i].KnownAt >= arrivals[i - 1].KnownAt;
        }

        var last = Milliseconds(arrivals[^1].KnownAt);
        return isAscending && last > Milliseconds(arrivals[0].KnownAt) ? token with { IsOwn = true, Seen = 0, Address = AddressOf(query, last, count) } : null;
    }

    private enum Doubt : byte
    {
        None, Short, CutOff,
    }

    // A history goes backwards: what it lists later became known before, and must not take back what was made again since.
    private static DateTimeOffset Unstamped(SweepQuery query, List<Arrival> before, DateTimeOffset time) =>
        query.AsksDeletions && before is [.., var newer] ? newer.KnownAt.AddTicks(-1) : time;

    private static DateTimeOffset Milliseconds(DateTimeOffset time) => time.AddTicks(-(time.Ticks % TimeSpan.TicksPerMillisecond));

    private int CountIn(string address)
    {
        var at = address.LastIndexOf("_count=", StringComparison.Ordinal);
        return at >= 0 && int.TryParse(address[(at + "_count=".Length)..], NumberStyles.None, CultureInfo.InvariantCulture, out var count) ? count : _pageSize;
    }

    private static string Enlarged(Uri asked, int count)
    {
        var at = asked.AbsoluteUri.LastIndexOf("_count=", StringComparison.Ordinal);
        return string.Create(CultureInfo.InvariantCulture, $"{(at >= 0 ? asked.AbsoluteUri[..at] : asked.AbsoluteUri + "&")}_count={count}");
    }

    private static string AddressOf(SweepQuery query, DateTimeOffset? since, int count)
    {
        if (query.AsksDeletions)
        {
            var after = since is { } known ? "_since=" + Uri.EscapeDataString(Instant(known)) + "&" : "";
            return string.Create(CultureInfo.InvariantCulture, $"{query.Type}/_history?{after}_count={count}");
        }

        var codes = query.Codes.Count == 0 ? "" : query.CodeParameter + "&";
        var from = since is { } time ? "_lastUpdated=ge" + Uri.EscapeDataString(Instant(time)) + "&" : "";
        return string.Create(CultureInfo.InvariantCulture, $"{query.Type}?{codes}{from}_sort=_lastUpdated&_count={count}");
    }

    private static string Instant(DateTimeOffset time) => time.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);

    private static string KindOf(Exception trouble) => trouble switch
    {
        HttpRequestException { InnerException: SocketException socket } => socket.SocketErrorCode.ToString(),
        HttpRequestException { HttpRequestError: var error } when error != HttpRequestError.Unknown => error.ToString(),
        _ => trouble.GetType().Name,
    };

    // What it was, by status or by kind: whoever reads the log must tell a certificate from a password.
    private static SourcePage Trouble(DiagnosticCode code, string type, TimeSpan? retryAfter, string? kind = null) =>
        new([], null, null, new Problem(code, type, kind ?? code.Title), retryAfter);
}
