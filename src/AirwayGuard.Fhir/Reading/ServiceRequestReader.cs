using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Terminology;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>An order of airway suction as a service: when, how often, what is coded in its details. Its free text is not read here.</summary>
internal static class ServiceRequestReader
{
    private static readonly Concept[] Details = [Concepts.SuctionSystem, Concepts.DepthTechnique, Concepts.HandTechnique];

    public static void Read(ServiceRequest order, Arrival arrival, Desk desk)
    {
        var scribe = desk.Scribe;
        desk.Row.Begin();
        if (!OrderFrame.IsAirwaySuction(order.Code, desk)
            || !OrderFrame.TryBegin(order.StatusElement, order.IntentElement, order.AuthoredOnElement, order.Subject, order.Encounter, order, arrival, scribe, out var frame))
        {
            return;
        }

        if (Raw.Truth(order.DoNotPerformElement) is { } isForbidden)
        {
            scribe.Fact(frame, 0, Concepts.OrderDoNotSuction, isForbidden ? FactValue.Yes : FactValue.No);
        }

        OrderTimingReader.Read(order.Occurrence, order.AsNeeded, frame, scribe);
        foreach (var coding in order.OrderDetail.SelectMany(detail => detail.Coding))
        {
            AddDetail(Raw.Text(coding.SystemElement), Raw.Text(coding.CodeElement) ?? "", frame, scribe);
        }

        foreach (var coding in order.ReasonCode.SelectMany(reason => reason.Coding))
        {
            if (Raw.Text(coding.SystemElement) is { Length: > 0 } system
                && scribe.Map.TryAnswer(Concepts.AllowanceReason, system, Raw.Text(coding.CodeElement) ?? "", out var reason))
            {
                scribe.Fact(frame, 0, Concepts.AllowanceReason, FactValue.Code(reason));
            }
        }

        OrderFrame.AddTies(order.BasedOn, order.Replaces, order.Requisition, scribe);
    }

    private static void AddDetail(string? system, string code, in Frame frame, Scribe scribe)
    {
        if (string.IsNullOrEmpty(system))
        {
            return;
        }

        if (system == CodeSystems.OrderDetail && code == "pre-oxygenate")
        {
            scribe.Fact(frame, 0, Concepts.Preoxygenation, FactValue.Yes);
            return;
        }

        foreach (var concept in Details)
        {
            if (scribe.Map.TryAnswer(concept, system, code, out var answer))
            {
                scribe.Fact(frame, 0, concept, FactValue.Code(answer));
            }
        }
    }
}
