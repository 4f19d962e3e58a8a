namespace AirwayGuard.Sandbox.Http;

/// <summary>The Prefer header (RFC 7240; R4 http.html#ops and search.html#errors).</summary>
internal static class Preference
{
    /// <summary>minimal, representation, OperationOutcome, or null when the client has no wish.</summary>
    public static string? Return(SandboxRequest request) => Value(request, "return");

    public static bool IsStrict(SandboxRequest request) => Value(request, "handling") == "strict";

    private static string? Value(SandboxRequest request, string name) =>
        request.Header("Prefer")?.Split(',', ';').Select(part => part.Split('=', 2, StringSplitOptions.TrimEntries))
            .FirstOrDefault(part => part.Length == 2 && string.Equals(part[0], name, StringComparison.OrdinalIgnoreCase))?[1].Trim('"');
}
