using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Habits;

/// <summary>Search parameters that the server does not know.</summary>
public sealed class UnknownParameters(UnknownWay way, params string[] names) : Habit
{
    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var pairs = request.RequestUri!.Query.TrimStart('?').Split('&', StringSplitOptions.RemoveEmptyEntries);
        var known = pairs.Where(pair => !names.Contains(pair.Split('=')[0], StringComparer.Ordinal)).ToArray();
        if (!IsSearch(request) || known.Length == pairs.Length)
        {
            return await PassAsync(request, cancellationToken);
        }

        if (way == UnknownWay.Refuse)
        {
            return JsonAnswer.Refuse(request, 400, "not-supported");
        }

        request.RequestUri = new Uri($"{BaseOf(request)}/{PathOf(request)[0]}?{string.Join('&', known)}");
        var response = await PassAsync(request, cancellationToken);
        if (way == UnknownWay.Tell && await JsonAnswer.ReadAsync(response, cancellationToken) is { } body)
        {
            var outcome = JsonNode.Parse("""{"resource":{"resourceType":"OperationOutcome","issue":[{"severity":"warning","code":"not-supported"}]},"search":{"mode":"outcome"}}""");
            body["entry"] = new JsonArray([.. (body["entry"] as JsonArray ?? []).Select(entry => entry!.DeepClone()), outcome]);
            JsonAnswer.Write(response, body);
        }

        return response;
    }
}
