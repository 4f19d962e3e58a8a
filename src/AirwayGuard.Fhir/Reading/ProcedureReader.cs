using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Quantities;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// An act of airway suction, by its code or, where no code says anything, by its text. Of suction of another part only whose it was is kept, so
/// that its rows are told from those of the airway; other procedures are of no interest.
/// </summary>
internal static class ProcedureReader
{
    public static void Read(Procedure procedure, Desk desk)
    {
        var scribe = desk.Scribe;
        desk.Row.Begin();
        var isCoded = PocoParts.TryMeaning(procedure.Code, desk, out var mapping, out _);
        var named = isCoded || OrderFrame.IsKnownOtherwise(procedure.Code, scribe) ? NamedSuction.None : ProcedureText.Of(Raw.Text(procedure.Code?.TextElement));
        var isSuction = isCoded ? mapping.Concept == Concepts.SuctionPass : named == NamedSuction.Airway;
        if (isSuction && !PocoParts.IsUsable(procedure.StatusElement, scribe,
                ["completed", "in-progress", "on-hold", "stopped"], ["preparation", "not-done"]))
        {
            return;
        }

        if (!PocoParts.TryPatient(procedure.Subject, scribe, out var patient))
        {
            return;
        }

        if (!isSuction)
        {
            if (Raw.Text(procedure.StatusElement) is "completed" or "in-progress" or "on-hold" or "stopped")
            {
                Leave(procedure.Code, named, patient, desk);
            }

            return;
        }

        if (!TryPerformed(procedure.Performed, scribe, out var from, out var to, out var offset))
        {
            return;
        }

        var encounter = scribe.Target(PocoParts.Address(procedure.Encounter), "Encounter"u8, EntityKind.Encounter);
        var frame = new Frame { About = patient, Encounter = encounter, Act = scribe.Self, From = from, To = to, OffsetMinutes = offset };
        scribe.Fact(frame, 0, Concepts.SuctionPass, FactValue.Absent);
        scribe.Link(LinkKind.DoneTo, scribe.Self, patient, from, to == from ? to + 1 : to);
        foreach (var part in procedure.PartOf)
        {
            scribe.Link(LinkKind.PartOf, scribe.Self, scribe.Target(PocoParts.Address(part), "Procedure"u8, EntityKind.Act));
        }

        foreach (var order in procedure.BasedOn)
        {
            scribe.Link(LinkKind.BasedOn, scribe.Self, scribe.Target(PocoParts.Address(order), "ServiceRequest"u8, EntityKind.Order));
        }

        foreach (var device in procedure.UsedReference.Concat(procedure.FocalDevice.Select(focal => focal.Manipulated)))
        {
            scribe.Link(LinkKind.Uses, scribe.Self, scribe.Target(PocoParts.Address(device), "Device"u8, EntityKind.Device), from, to == from ? to + 1 : to);
        }
    }

    private static void Leave(CodeableConcept? code, NamedSuction named, Entity patient, Desk desk)
    {
        if (named == NamedSuction.Unclear)
        {
            desk.Scribe.Problem(Codes.SuctionUnclear, "A Procedure's text names suction, and not plainly that of an artificial airway. No code says what it was.");
        }
        else if (named == NamedSuction.Other || OrderFrame.IsLeftOut(code, desk.Scribe))
        {
            desk.Scribe.Link(LinkKind.DoneTo, desk.Scribe.Self, patient);
        }

        NotMapped.Note(code, desk);
    }

    private static bool TryPerformed(DataType? performed, Scribe scribe, out long from, out long to, out short offset)
    {
        (from, to, offset) = (long.MinValue, long.MaxValue, 0);
        switch (performed)
        {
            case FhirDateTime moment:
                var isRead = EffectiveTime.TryRead(Encoding.UTF8.GetBytes(Raw.Text(moment) ?? ""), "performed", scribe, out from, out offset);
                to = from;
                return isRead;
            case Period period when Raw.Text(period.StartElement) is { Length: > 0 }:
                return PocoParts.TryPeriod(period, "performed", scribe, out from, out to, out offset);
            default:
                scribe.Unreadable(Codes.NoTime, "The procedure has no time it was performed at.");
                return false;
        }
    }
}
