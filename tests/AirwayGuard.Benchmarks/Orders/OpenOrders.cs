using System.Globalization;
using System.Text;
using AirwayGuard.Benchmarks.Charting;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Benchmarks.Orders;

/// <summary>A thousand patients with a tube and an order in words each, judged again and again.</summary>
internal sealed class OpenOrders
{
    public const int Count = 1_000;

    private static readonly string[] Texts =
    [
        "Sx ETT q2h & PRN, -200 mmHg, 14Fr, lavage 5 mL NS",
        "Assess q2h, suction PRN for audible secretions. Do not exceed 150 mmHg. 10 Fr, in-line. No saline.",
        "Decrease vacuum from 220 to 120 mmHg; suction as needed, shallow",
        "ETT 7.0 at 23 cm, cuff 28 cmH2O, NG 18 Fr to gravity. Suction tube when secretions are heard, 12 Ch or smaller, less than 16 kPa",
    ];

    private readonly EntityTable _entities = new();
    private readonly MemoryChart _chart = new();
    private readonly StayReader _reader;

    public OpenOrders()
    {
        _reader = new StayReader(_entities);
        for (var i = 0; i < Count; i++)
        {
            _chart.Keep(_reader.Read([Of("Patient", $"p{i}", $$"""{"resourceType":"Patient","id":"p{{i}}","birthDate":"1961-05-04"}"""), Tube(i, 8, "08:00"), Order(i)]));
        }

        Timelines = Load();
    }

    public IReadOnlyList<TimelineLease> Timelines { get; private set; }

    /// <summary>Order texts as written.</summary>
    public static IReadOnlyList<string> Written => [.. Enumerable.Range(0, Count).Select(TextOf)];

    /// <summary>The same as resources.</summary>
    public static Arrival[] Resources => [.. Enumerable.Range(0, Count).Select(Order)];

    /// <summary>Every tube is changed for a narrower one.</summary>
    public void ChangeTubes()
    {
        for (var i = 0; i < Count; i++)
        {
            _chart.Keep(_reader.Read([Tube(i, 7, "12:00")]));
        }

        Timelines = Load();
    }

    /// <returns>How many orders were judged.</returns>
    public long Judge(RuleSet rules)
    {
        var judge = new PatientJudge(rules, _entities);
        var settings = new JudgeSettings(Stay.Begins.AddDays(1).UtcTicks, WaitsAreOver: false, UnknownAge.CannotTell);
        foreach (var timeline in Timelines)
        {
            judge.Judge(timeline.View, settings);
        }

        return Timelines.Count;
    }

    private TimelineLease[] Load() => [.. Enumerable.Range(0, Count).Select(i => _chart.Load(_entities.Intern(EntityKind.Patient, $"Patient/p{i}"), _chart.Newest))];

    private static string TextOf(int order) => string.Create(CultureInfo.InvariantCulture, $"{Texts[order % Texts.Length]} Seen by team {order}.");

    private static Arrival Order(int patient) => Of("ServiceRequest", $"o{patient}", $$"""
        {"resourceType":"ServiceRequest","id":"o{{patient}}","status":"active","intent":"order","code":{"coding":[{"system":"http://snomed.info/sct","code":"230040009"}] },
         "subject":{"reference":"Patient/p{{patient}}"},"authoredOn":"{{Stay.Begins:yyyy-MM-dd}}T09:00:00Z","note":[{"text":"{{TextOf(patient)}}"}]}
        """);

    private static Arrival Tube(int patient, int size, string time) => Of("Observation", $"t{patient}-{size}", $$"""
        {"resourceType":"Observation","id":"t{{patient}}-{{size}}","status":"final","code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"tube-inner-diameter"}] },
         "subject":{"reference":"Patient/p{{patient}}"},"effectiveDateTime":"{{Stay.Begins:yyyy-MM-dd}}T{{time}}:00Z","valueQuantity":{"value": {{size}},"unit":"mm","system":"http://unitsofmeasure.org","code":"mm"} }
        """);

    private static Arrival Of(string type, string id, string body) =>
        new(ArrivalKind.Resource, "ward", type, id, null, Stay.Begins, KnownBy.Received, Encoding.UTF8.GetBytes(body));
}
