using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.CdsHooks;

namespace AirwayGuard.Worker.Questions;

/// <summary>Why a person may keep an order as it is: the reasons that a rule may allow, in a clinician's words.</summary>
public static class OfferedReasons
{
    private static readonly Dictionary<string, string> Words = new(StringComparer.Ordinal)
    {
        ["thick-secretions"] = "Thick secretions",
        ["suspected-obstruction"] = "The airway may be obstructed",
        ["emergency"] = "Emergency",
        ["lung-injury"] = "Lung injury",
        ["raised-intracranial-pressure"] = "Raised intracranial pressure",
        ["bleeding-risk"] = "Risk of bleeding",
        ["shallow-ineffective"] = "Shallow suction did not clear the airway",
        ["order-specific"] = "Meant for this patient as ordered",
        ["other-with-text"] = "Another reason, in a comment",
    };

    public static ImmutableArray<CardCoding> All { get; } =
        [.. Concepts.Info(Concepts.AllowanceReason).Answers.Select(static code => new CardCoding(OverrideReasons.System, code, Words[code]))];
}
