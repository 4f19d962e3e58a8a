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

    public static JsonObject Of(SandboxRefusalException refusal) => Of("error", refusal.IssueCode, refusal.Message, refusal.Expression);
}
