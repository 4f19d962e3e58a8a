using System.Globalization;
using System.Text;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Tests.Intake;

/// <summary>A server's changes as a test says, and what was asked for.</summary>
internal sealed class SourceFake(params string[] types) : IArrivalSource
{
    public IReadOnlyList<string> Types => types;

    public IReadOnlyList<string> Deletions { get; init; } = [];

    public bool IsIndispensable(string type) => type == "Patient" || type.StartsWith("Observation", StringComparison.Ordinal);

    /// <summary>Gets what is asked; an empty last page at the bench's server time unless a test says otherwise.</summary>
    public Func<SourceQuestion, SourcePage> Answer { get; set; } = static _ => Page(IntakeBench.Morning);

    public List<SourceQuestion> Asked { get; } = [];

    public ValueTask<SourcePage> PageAsync(string type, DateTimeOffset? since, string? next, CancellationToken stop)
    {
        var question = new SourceQuestion(type, since, next);
        Asked.Add(question);
        return ValueTask.FromResult(Answer(question));
    }

    public static SourcePage Page(DateTimeOffset serverTime, params Arrival[] arrivals) => new(arrivals, null, serverTime, null, null);

    public static SourcePage Trouble(DiagnosticCode code, TimeSpan? retryAfter = null, bool isOffered = true) =>
        new([], null, null, new Problem(code, "", code.Title), retryAfter, isOffered);

    /// <summary>A vacuum reading of Patient/1.</summary>
    public static Arrival Row(string id, string version, DateTimeOffset knownAt, int mmHg = 120) => Resource(id, version, knownAt, string.Create(CultureInfo.InvariantCulture, $$$"""
        {"resourceType":"Observation","id":"{{{id}}}","meta":{"versionId":"{{{version}}}"},"status":"final","subject":{"reference":"Patient/1"},"effectiveDateTime":"2026-03-02T07:00:00Z",
         "code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"vacuum-pressure"}]},
         "valueQuantity":{"value":{{{mmHg}}},"system":"http://unitsofmeasure.org","code":"mm[Hg]"}}
        """));

    public static Arrival Unreadable(string id, DateTimeOffset knownAt) => Resource(id, "1", knownAt, "{\"resourceType\":\"Observation\",\"id\":7");

    public static Arrival Deletion(string id, string version, DateTimeOffset knownAt) =>
        new(ArrivalKind.Deletion, "https://ehr.example.org/fhir/", "Observation", id, version, knownAt, KnownBy.ServersStamp, default);

    private static Arrival Resource(string id, string version, DateTimeOffset knownAt, string body) =>
        new(ArrivalKind.Resource, "https://ehr.example.org/fhir/", "Observation", id, version, knownAt, KnownBy.ServersStamp, Encoding.UTF8.GetBytes(body));
}

/// <summary>What a sweep asked its source.</summary>
internal sealed record SourceQuestion(string Query, DateTimeOffset? Since, string? Next);
