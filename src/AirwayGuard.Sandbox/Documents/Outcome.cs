using System.Text.Json.Nodes;

namespace AirwayGuard.Sandbox.Documents;

/// <summary>OperationOutcome resources (R4 operationoutcome.html).</summary>
internal static class Outcome
{
    public static JsonObject Of(string severity, string code, string text, string? expression = null)
    {
        var issue = new JsonObject { ["severity"] = severity, ["code"] = code, ["diagnostics"] = text };
        if (expression is not null)
        {
            issue["expression"] = new JsonArray(expression);
        }

        return new JsonObject { ["resourceType"] = "OperationOutcome", ["issue"] = new JsonArray(issue) };
    }

    /// <summary>Code, place, what was wrong and what to do; the library's own code last.</summary>
    public static JsonObject Of(SandboxRefusalException refusal, SandboxOptions options)
    {
        var words = options.WordsOf?.Invoke(refusal.Fault);
        var place = refusal.Expression is null ? "" : refusal.Expression + ": ";
        var library = refusal.LibraryCode is null ? "" : $" (FHIR library: {refusal.LibraryCode})";
        var text = words is null
            ? $"{place}{refusal.Message}{library}"
            : $"{words.Code}  {place}{refusal.Message} {words.Advice}{library}";
        var outcome = Of("error", refusal.IssueCode, text, refusal.Expression);
        if (words is not null)
        {
            outcome["issue"]![0]!.AsObject().Insert(2, "details", new JsonObject { ["text"] = $"{words.Code} {words.Title}" });
        }

        return outcome;
    }
}
