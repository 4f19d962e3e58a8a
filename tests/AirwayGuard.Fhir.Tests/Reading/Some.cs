using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>Valid rows to start from, and readings in words that a test can compare.</summary>
internal static class Some
{
    public const string Own = CodeSystems.AirwayCare;
    public const string Row = "https://willowmere.example.org/charting/row";

    public static FhirArrivalReader Reader { get; } = new(ShippedMaps.WithDemoRows);

    public static string Observation(string code, string value, string more = "", string system = Own) => $$"""
        {"resourceType":"Observation","id":"o1","status":"final","code":{"coding":[{"system":"{{system}}","code":"{{code}}"}]},
         "subject":{"reference":"Patient/p1"},"effectiveDateTime":"2026-03-01T09:55:00+11:00"{{(value.Length > 0 ? "," + value : "")}}{{(more.Length > 0 ? "," + more : "")}}}
        """;

    public static string Quantity(string number, string? unit = null, string? code = null, string? comparator = null) =>
        new JsonObject(Members(number, unit, code, comparator)).ToJsonString() is var json ? $"\"valueQuantity\":{json}" : "";

    public static Read Read(string json, FhirArrivalReader? reader = null, string? id = null) => Read(Encoding.UTF8.GetBytes(json), reader, id);

    public static Read Read(ReadOnlyMemory<byte> body, FhirArrivalReader? reader = null, string? id = null)
    {
        var names = new EntityTable();
        var into = new Core.Ports.Reading();
        (reader ?? Reader).Read(new Arrival(ArrivalKind.Resource, "input.json", null, id, null, DateTimeOffset.UnixEpoch, KnownBy.Import, body), names, into);
        return new Read(into, names);
    }

    private static IEnumerable<KeyValuePair<string, JsonNode?>> Members(string number, string? unit, string? code, string? comparator)
    {
        yield return new("value", JsonNode.Parse(number));
        if (comparator is not null)
        {
            yield return new("comparator", comparator);
        }

        if (unit is not null)
        {
            yield return new("unit", unit);
        }

        if (code is not null)
        {
            yield return new("system", CodeSystems.Ucum);
            yield return new("code", code);
        }
    }
}

/// <summary>One reading, with the names of its entities.</summary>
internal sealed record Read(Core.Ports.Reading Reading, EntityTable Names)
{
    /// <summary>The codes of the problems, a space between.</summary>
    public string Codes => string.Join(" ", Reading.Problems.Select(problem => problem.Code.Id));

    public Fact Only => Assert.Single(Reading.Facts);

    /// <summary>Everything read, one line each.</summary>
    public IReadOnlyList<string> Lines =>
    [
        $"self {Names.NameOf(Reading.Self)} identifier '{Reading.Identifier}' {(Reading.Readable ? "readable" : "unreadable")}",
        .. Reading.NotMapped.Select(code => $"not mapped '{code}'"),
        .. Reading.Facts.Select(InWords),
        .. Reading.Links.Select(link => $"{link.Kind} {Names.NameOf(link.From)} -> {Names.NameOf(link.To)} [{link.FromTime}, {link.ToTime}) {link.Id.Ordinal}"),
        .. Reading.Problems.Select(problem => $"{problem.Code} {problem.Where} {problem.Why}"),
    ];

    public static string InWords(FactValue value) => value.Kind switch
    {
        ValueKind.Number => $"{Sign(value.Comparator)}{value.Amount.ToString(System.Globalization.CultureInfo.InvariantCulture)} {Units.Ucum(value.Unit)}".Trim(),
        ValueKind.Code => Answers.Code(value.Symbol),
        ValueKind.Date => $"date {value.Digits}/{value.Scale}",
        _ => value.Kind.ToString().ToLowerInvariant(),
    };

    private static string Sign(Comparator comparator) => comparator switch
    {
        Comparator.Below => "<",
        Comparator.AtMost => "<=",
        Comparator.AtLeast => ">=",
        Comparator.Above => ">",
        _ => "",
    };

    private string InWords(Fact fact) =>
        $"{fact.Concept} = {InWords(fact.Value)} #{fact.Id.Ordinal} of {Names.NameOf(fact.About)} in {Names.NameOf(fact.Encounter)} by {Names.NameOf(fact.Device)} "
        + $"act {Names.NameOf(fact.Act)} row {Names.NameOf(fact.Row)} group {Names.NameOf(fact.Group)} marks {fact.Marks} [{fact.EffectiveFrom}, {fact.EffectiveTo}] {fact.OffsetMinutes}"
        + (fact.Value.IsNumber && fact.Value.Symbol > 0 ? $" code {Names.NameOf(new Entity(EntityKind.RowCode, fact.Value.Symbol))}" : "");
}
