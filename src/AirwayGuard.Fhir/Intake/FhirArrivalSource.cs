using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Text.Json;
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

    /// <param name="http">Has its resilience and token handlers already.</param>
    /// <param name="pageSize">Resources a page, 1 to 1000.</param>
    /// <param name="clock">For a Retry-After given as a date; never for a cursor.</param>
    public FhirArrivalSource(HttpClient http, FhirGate gate, IReadOnlyList<SweepQuery> queries, int pageSize, TimeProvider clock)
    {
        (_http, _gate, _pageSize, _clock) = (http, gate, pageSize, clock);
        _queries = queries.ToDictionary(query => query.Name, StringComparer.Ordinal);
        Types = [.. queries.Select(query => query.Name)];
    }

    /// <inheritdoc />
    public IReadOnlyList<string> Types { get; }

    /// <inheritdoc />
    public async ValueTask<SourcePage> PageAsync(string type, DateTimeOffset? since, string? next, CancellationToken stop)
    {
        if (!_gate.TryAllow(next ?? AddressOf(_queries[type], since, _pageSize), out var address, out _))
        {
            return Trouble(Codes.NextLinkOutside, type, null);
        }

        try
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, address);
            request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue("application/fhir+json"));
            request.Headers.TryAddWithoutValidation("Prefer", "handling=strict");
            using var response = await _http.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, stop);
            if (response.StatusCode != HttpStatusCode.OK)
            {
                var refused = response.StatusCode is HttpStatusCode.BadRequest or HttpStatusCode.Forbidden or HttpStatusCode.NotFound
                    or HttpStatusCode.MethodNotAllowed or HttpStatusCode.NotImplemented;
                return Trouble(Codes.SweepRefused, type, RetryAfter.Of(response, _clock)) with { IsOffered = !refused };
            }

            var body = await response.Content.ReadAsByteArrayAsync(stop);
            return await ReadAsync(type, address, body, response.Headers.Date, stop);
        }
        catch (Exception trouble) when (trouble is HttpRequestException or TimeoutException || (trouble is OperationCanceledException && !stop.IsCancellationRequested)
            || trouble is Polly.ExecutionRejectedException)
        {
            return Trouble(Codes.SweepRefused, type, null);
        }
    }

    private async ValueTask<SourcePage> ReadAsync(string type, Uri asked, byte[] body, DateTimeOffset? date, CancellationToken stop)
    {
        if (!TryHead(body, out var head))
        {
            return Trouble(Codes.SweepNotBundle, type, null);
        }

        if ((head.ServerTime ?? date) is not { } time)
        {
            return Trouble(Codes.SweepTimeUnknown, type, null);
        }

        var (arrivals, unusable) = (new List<Arrival>(), new List<Problem>());
        using var stream = new MemoryStream(body, writable: false);
        await foreach (var item in FhirDocuments.ReadAsync(stream, type, stop))
        {
            // Some servers add an OperationOutcome entry, and not all mark it by search mode: the type tells.
            if (item.Arrival is { Type: not "OperationOutcome" } arrival)
            {
                arrivals.Add(arrival with { Source = _gate.BaseAddress.AbsoluteUri });
            }
            else if (item.Problem is { } problem)
            {
                unusable.Add(problem);
            }
        }

        var next = head.Next ?? Narrowed(_queries[type], asked, arrivals);
        return new SourcePage(arrivals, next, time, null, null) { Unusable = unusable };
    }

    // A full page without a next link: ask again from the last change seen, or, where that moves nothing (one instant fills the
    // page, or the order asked for was not kept), for a larger page. Repeats are told by their version.
    private string? Narrowed(SweepQuery query, Uri asked, List<Arrival> arrivals)
    {
        var count = CountIn(asked);
        if (arrivals.Count < count || count >= LargestPage)
        {
            return null;
        }

        var isAscending = true;
        for (var i = 1; i < arrivals.Count; i++)
        {
            isAscending &= arrivals[i].KnownAt >= arrivals[i - 1].KnownAt;
        }

        var last = Milliseconds(arrivals[^1].KnownAt);
        var moves = isAscending && last > Milliseconds(arrivals[0].KnownAt);
        return moves ? AddressOf(query, last, count) : Enlarged(asked, Math.Min(count * 4, LargestPage));
    }

    private static DateTimeOffset Milliseconds(DateTimeOffset time) => time.AddTicks(-(time.Ticks % TimeSpan.TicksPerMillisecond));

    private int CountIn(Uri asked)
    {
        var at = asked.Query.LastIndexOf("_count=", StringComparison.Ordinal);
        return at >= 0 && int.TryParse(asked.Query[(at + "_count=".Length)..], NumberStyles.None, CultureInfo.InvariantCulture, out var count) ? count : _pageSize;
    }

    private static string Enlarged(Uri asked, int count)
    {
        var at = asked.AbsoluteUri.LastIndexOf("_count=", StringComparison.Ordinal);
        return string.Create(CultureInfo.InvariantCulture, $"{(at >= 0 ? asked.AbsoluteUri[..at] : asked.AbsoluteUri + "&")}_count={count}");
    }

    private static string AddressOf(SweepQuery query, DateTimeOffset? since, int count)
    {
        var codes = query.Codes.Count == 0 ? "" : query.CodeParameter + "&";
        var from = since is { } time
            ? "_lastUpdated=ge" + Uri.EscapeDataString(time.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture)) + "&"
            : "";
        return string.Create(CultureInfo.InvariantCulture, $"{query.Type}?{codes}{from}_sort=_lastUpdated&_count={count}");
    }

    private static bool TryHead(byte[] body, out (DateTimeOffset? ServerTime, string? Next) head)
    {
        head = default;
        try
        {
            using var document = JsonDocument.Parse(body.AsMemory(body.AsSpan().StartsWith("\uFEFF"u8) ? 3 : 0), new JsonDocumentOptions { MaxDepth = 1_000 });
            var root = document.RootElement;
            if (root.ValueKind != JsonValueKind.Object || !root.TryGetProperty("resourceType", out var kind) || !kind.ValueEquals("Bundle"))
            {
                return false;
            }

            DateTimeOffset? time = root.TryGetProperty("meta", out var meta) && meta.ValueKind == JsonValueKind.Object
                && meta.TryGetProperty("lastUpdated", out var stamp) && stamp.ValueKind == JsonValueKind.String && stamp.TryGetDateTimeOffset(out var parsed) ? parsed : null;
            head = (time, NextOf(root));
            return true;
        }
        catch (JsonException)
        {
            return false;
        }
    }

    private static string? NextOf(JsonElement bundle)
    {
        if (!bundle.TryGetProperty("link", out var links) || links.ValueKind != JsonValueKind.Array)
        {
            return null;
        }

        foreach (var link in links.EnumerateArray())
        {
            if (link.ValueKind == JsonValueKind.Object && link.TryGetProperty("relation", out var relation) && relation.ValueEquals("next")
                && link.TryGetProperty("url", out var url) && url.ValueKind == JsonValueKind.String)
            {
                return url.GetString();
            }
        }

        return null;
    }

    private static SourcePage Trouble(DiagnosticCode code, string type, TimeSpan? retryAfter) =>
        new([], null, null, new Problem(code, type, code.Title), retryAfter);
}
