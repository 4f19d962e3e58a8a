using System.Text.Json;
using AirwayGuard.Host.Tests.Scenarios;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary>What <c>check --format json</c> answered.</summary>
internal sealed record CheckAnswer(int Exit, JsonElement Report, string Stdout, string Stderr)
{
    /// <summary>Runs check in this process.</summary>
    public static async Task<CheckAnswer> OfAsync(params string[] arguments)
    {
        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(["check", .. arguments, "--format", "json"]);
        using var json = JsonDocument.Parse(stdout);
        return new CheckAnswer(exit, json.RootElement.Clone(), stdout, stderr);
    }

    /// <summary>Each finding as <c>check resource state</c>.</summary>
    public IReadOnlyList<string> Findings =>
    [
        .. Report.GetProperty("findings").EnumerateArray()
            .Select(one => $"{one.GetProperty("check").GetString()} {one.GetProperty("about")[0].GetString()} {one.GetProperty("state").GetString()}"),
    ];

    /// <summary>Each check that could not be told, as <c>check resource: missing</c>.</summary>
    public IReadOnlyList<string> CannotTell =>
    [
        .. Report.GetProperty("cannotTell").EnumerateArray()
            .Select(one => $"{one.GetProperty("check").GetString()} {one.GetProperty("about")[0].GetString()}: {one.GetProperty("missing").GetString()}"),
    ];

    /// <summary>Each problem as <c>code where</c>.</summary>
    public IReadOnlyList<string> Problems =>
    [
        .. Report.GetProperty("problems").EnumerateArray()
            .Select(one => $"{one.GetProperty("code").GetString()} {one.GetProperty("where").GetString()}"),
    ];
}
