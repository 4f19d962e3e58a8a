using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Orders;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Terminology;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>An order of equipment for airway suction: its parameters hold the numbers.</summary>
internal static class DeviceRequestReader
{
    private static readonly int Closed = Answers.Of("closed");

    public static void Read(DeviceRequest order, Arrival arrival, Desk desk)
    {
        var scribe = desk.Scribe;
        desk.Row.Begin();
        DeviceKinds.TellUnknown(order.Code as CodeableConcept, "code", scribe);
        if (!IsOfInterest(order, desk)
            || !OrderFrame.TryBegin(order.StatusElement, order.IntentElement, order.AuthoredOnElement, order.Subject, order.Encounter, order, arrival, scribe, out var frame))
        {
            return;
        }

        // When it occurs is when the equipment is put in place or replaced: nothing of when to suction.
        ushort ordinal = 0;
        foreach (var parameter in order.Parameter.Take(UnreadOrderParts.Ordinal - 1))
        {
            ordinal++;
            if (parameter.ModifierExtension.Count > 0)
            {
                // It may mean the contrary of what it says.
                scribe.Problem(Codes.ModifierUnknown, string.Create(CultureInfo.InvariantCulture, $"parameter[{ordinal - 1}] carries a modifier extension."));
                continue;
            }

            if (PocoParts.TryMeaningOfValue(parameter.Code, string.Create(CultureInfo.InvariantCulture, $"parameter[{ordinal - 1}].code"), desk, out var mapping, out var coding))
            {
                AddParameter(parameter.Value, mapping, coding, ordinal, order.Parameter.Count, frame, desk);
            }
        }

        if (DeviceKinds.Of(order.Code as CodeableConcept, scribe) is [var kind] && kind == Answers.ClosedSuctionCatheter)
        {
            scribe.Fact(frame, 0, Concepts.SuctionSystem, FactValue.Code(Closed));
        }

        var isEndUnread = OrderVacuumWords.Of(scribe.Into).Unread is not null;
        var texts = OrderTexts.Of(order);
        if (!texts.IsEmpty)
        {
            OrderTextFacts.Add(texts, frame, scribe);
        }

        if (isEndUnread || UnreadOrderParts.Of(order, scribe.Into).Any())
        {
            scribe.Fact(frame, UnreadOrderParts.Ordinal, Concepts.OrderUnread, FactValue.Text);
        }

        OrderFrame.AddTies(order.BasedOn, order.PriorRequest, order.GroupIdentifier, scribe);
    }

    private static bool IsOfInterest(DeviceRequest order, Desk desk)
    {
        var code = order.Code as CodeableConcept;
        return !IsOfAnotherPlace(order, desk) && (OrderFrame.IsAirwaySuction(order.Code, desk)
            || DeviceKinds.Of(code, desk.Scribe).Any(
                kind => kind == Answers.SuctionCatheter || kind == Answers.ClosedSuctionCatheter || kind == Answers.VacuumRegulator)
            || order.Parameter.Exists(parameter => PocoParts.TryMeaning(parameter.Code, desk, out var mapping, out _) && IsOfSuction(mapping.Concept)));
    }

    // By its name, unless a parameter of its own says what is suctioned.
    private static bool IsOfAnotherPlace(DeviceRequest order, Desk desk) =>
        OrderName.Of(order.Code).Any(static name => OrderSites.UseOf(name.Words) is > 0 and var use && use != Answers.Airway)
        && !order.Parameter.Exists(parameter => PocoParts.TryMeaning(parameter.Code, desk, out var mapping, out _) && mapping.Concept == Concepts.SuctionUse);

    private static bool IsOfSuction(Concept concept) =>
        IsVacuum(concept) || concept == Concepts.CatheterSize || concept == Concepts.SuctionSystem || concept == Concepts.RegulatorMode
        || concept == Concepts.SalineInstilled || concept == Concepts.Preoxygenation || concept == Concepts.InsertionDepth || concept == Concepts.DepthTechnique;

    private static bool IsVacuum(Concept concept) => concept == Concepts.VacuumSet || concept == Concepts.VacuumPressure;

    private static void AddParameter(DataType? value, in RowMapping mapping, in ChartedCoding coding, ushort ordinal, int parts, in Frame frame, Desk desk)
    {
        if (value is not Hl7.Fhir.Model.Range range)
        {
            AddValue(value, mapping, coding, ordinal, parts, isLow: false, frame, desk);
            return;
        }

        if (IsVacuum(mapping.Concept) && range.Low is not null)
        {
            AddValue(range.Low, mapping, coding, ordinal, parts, isLow: true, frame, desk);
        }

        // Of a range the upper end is what the order allows; without one, anything from the lower end on.
        if (range.High is not null)
        {
            AddValue(range.High, mapping, coding, ordinal, parts, isLow: false, frame, desk);
        }
        else if (!IsVacuum(mapping.Concept))
        {
            AddValue(range.Low, mapping, coding, ordinal, parts, isLow: true, frame, desk);
        }
    }

    private static void AddValue(
        DataType? charted, in RowMapping mapping, in ChartedCoding coding, ushort ordinal, int parts, bool isLow, in Frame frame, Desk desk)
    {
        if (!PocoParts.TryValue(charted, mapping, coding, desk, out var read))
        {
            return;
        }

        if (isLow && !IsVacuum(mapping.Concept) && read.Value is { IsNumber: true, Comparator: Comparator.Exactly } number)
        {
            read = read with { Value = number with { Comparator = Comparator.AtLeast } };
        }

        // "At least 80" bounds from below and says nothing of an upper value.
        isLow |= read.Value.Comparator is Comparator.AtLeast or Comparator.Above;
        var concept = !IsVacuum(mapping.Concept) ? mapping.Concept : isLow ? Concepts.OrderVacuumLow : Concepts.OrderVacuumHigh;
        desk.Scribe.Facts(frame, ordinal, concept, read, PocoParts.Marks(mapping, read), parts);
    }
}
