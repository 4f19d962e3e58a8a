using System.Text;
using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Habits;

/// <summary>Of a transaction with a bad entry the others stay written.</summary>
/// <param name="saysSo">Answers 200, and the bad entry says 500; else the whole is answered 409.</param>
public sealed class TransactionsPartWritten(bool saysSo) : Habit
{
    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        if (request.Method != HttpMethod.Post || PathOf(request) is not [""])
        {
            return await PassAsync(request, cancellationToken);
        }

        var bundle = JsonNode.Parse(await request.Content!.ReadAsByteArrayAsync(cancellationToken))!;
        var isTransaction = (string?)bundle["type"] == "transaction";
        bundle["type"] = "batch";
        request.Content.Dispose();
        request.Content = new StringContent(bundle.ToJsonString(), Encoding.UTF8, JsonAnswer.FhirJson);
        var response = await PassAsync(request, cancellationToken);
        if (!isTransaction || await JsonAnswer.ReadAsync(response, cancellationToken) is not { } answer)
        {
            return response;
        }

        answer["type"] = "transaction-response";
        var bad = (answer["entry"] as JsonArray ?? []).Select(entry => entry!["response"]!.AsObject()).Where(entry => ((string)entry["status"]!)[0] is '4' or '5').ToList();
        if (bad.Count > 0 && !saysSo)
        {
            response.Dispose();
            return JsonAnswer.Refuse(request, 409, "conflict");
        }

        bad.ForEach(entry => entry["status"] = "500");
        JsonAnswer.Write(response, answer);
        return response;
    }
}
