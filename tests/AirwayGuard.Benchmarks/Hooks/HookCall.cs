using System.Globalization;

namespace AirwayGuard.Benchmarks.Hooks;

/// <summary>What is asked again and again.</summary>
/// <param name="Name">As the table names it.</param>
/// <param name="Url">Where to.</param>
/// <param name="Body">With <see cref="Instance"/> where each request has a <c>hookInstance</c> of its own.</param>
/// <param name="Cards">Whether an answer must hold cards; null where it is no answer of cards.</param>
internal sealed record HookCall(string Name, Uri Url, string Body, bool? Cards)
{
    public const string Instance = "{instance}";

    /// <summary>A signing of two drafts: that suction is done, and with which equipment.</summary>
    /// <param name="vacuum">mmHg. Above 150 an adult's order breaches, and a card suggests another.</param>
    public static string OrderSign(string patient, int vacuum) => string.Create(CultureInfo.InvariantCulture, $$$$"""
        {"hook":"order-sign","hookInstance":"{{{{Instance}}}}","context":{"userId":"Practitioner/n7","patientId":"{{{{patient}}}}","draftOrders":{"resourceType":"Bundle","type":"collection","entry":[
        {"resource":{"resourceType":"ServiceRequest","id":"draft-1","status":"draft","intent":"order","code":{"text":"Suction endotracheal tube"},"asNeededBoolean":true,"orderDetail":[{"text":"Closed system, for audible secretions"}],"subject":{"reference":"Patient/{{{{patient}}}}"}}},
        {"resource":{"resourceType":"DeviceRequest","id":"draft-2","status":"draft","intent":"order","basedOn":[{"reference":"ServiceRequest/draft-1"}],"codeCodeableConcept":{"text":"Suction set"},"subject":{"reference":"Patient/{{{{patient}}}}"},"parameter":[
        {"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"vacuum-set"}]},"valueQuantity":{"value":{{{{vacuum}}}},"unit":"mmHg","system":"http://unitsofmeasure.org","code":"mm[Hg]"}},
        {"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"catheter-size"}]},"valueQuantity":{"value":10,"unit":"Fr","system":"http://unitsofmeasure.org","code":"[Ch]"}}]}}]}}}
        """);
}

/// <summary>A call with how often it is made.</summary>
/// <param name="Callers">That many at a time.</param>
/// <param name="WarmUp">Requests that are not counted.</param>
/// <param name="Requests">Requests that are, of all callers together.</param>
internal sealed record CallJob(HookCall Call, int Callers, int WarmUp, int Requests);

/// <summary>How it came out. Times in milliseconds, from sending a request to the last byte of its answer.</summary>
/// <param name="Fault">What an answer was that should have been another; null where there was none.</param>
internal sealed record CallResult(double P50, double P95, double P99, double ASecond, string? Fault);
