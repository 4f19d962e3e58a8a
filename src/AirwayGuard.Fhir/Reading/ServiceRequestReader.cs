using System.Globalization;
using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Orders;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Terminology;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>An order of airway suction as a service: when, how often, what is coded in its details, and what its texts say.</summary>
internal static class ServiceRequestReader
{
    private static readonly Concept[] Details = [Concepts.SuctionSystem, Concepts.DepthTechnique, Concepts.HandTechnique, Concepts.RegulatorMode, Concepts.AllowanceReason];

    public static void Read(ServiceRequest order, Arrival arrival, Desk desk)
    {
        var scribe = desk.Scribe;
        desk.Row.Begin();
        if (!OrderFrame.IsCoded(order.Code, desk) && !(OrderFrame.MayBeNamedByText(order.Code, desk) && OrderTexts.Of(order).NamesAirwaySuction))
        {
            if (Raw.Text(order.StatusElement) is "active" or "on-hold")
            {
                NotMapped.Note(order.Code, desk, isNamedByText: true);
            }

            if (Raw.Text(order.StatusElement) != "entered-in-error" && OrderFrame.IsOtherSuction(order.Code, desk))
            {
                // A request for equipment that belongs to it is of no airway either.
                OrderFrame.KeepPlace(order.Subject, scribe);
                OrderFrame.AddTies(order.BasedOn, order.Replaces, order.Requisition, scribe);
            }

            return;
        }

        if (!OrderFrame.TryBegin(order.StatusElement, order.IntentElement, order.AuthoredOnElement, order.Subject, order.Encounter, order, arrival, scribe, out var frame))
        {
            return;
        }

        if (IsForbiddingUnreadable(order))
        {
            scribe.Problem(Codes.ValueUnreadable, "doNotPerform is neither true nor false: the order may ask for suction or forbid it.");
            scribe.Fact(frame, 0, Concepts.OrderDoNotSuction, FactValue.Unreadable);
            scribe.Fact(frame, UnreadOrderParts.Ordinal, Concepts.OrderUnread, FactValue.Text);
            OrderFrame.AddTies(order.BasedOn, order.Replaces, order.Requisition, scribe);
            return;
        }

        AddUses(order, frame, scribe);
        var isForbidden = Raw.Truth(order.DoNotPerformElement);
        var asks = scribe.Into.Facts.Count;
        OrderTimingReader.Read(order.Occurrence, order.AsNeeded, frame, scribe);
        var details = scribe.Into.Facts.Count;
        ushort ordinal = 0;
        foreach (var detail in order.OrderDetail.Take(UnreadOrderParts.Ordinal - 1))
        {
            ordinal++;
            foreach (var coding in detail.Coding)
            {
                AddDetail(Raw.Text(coding.SystemElement), Raw.Text(coding.CodeElement) ?? "", ordinal, frame, scribe);
            }

            AddModeByText(detail, ordinal, frame, scribe);
        }

        if (isForbidden is { } isWhole)
        {
            AddForbidding(order, isWhole, asks, details, frame, scribe);
        }

        AddReasons(order, frame, scribe);
        if (!LeavesTextUnread(order))
        {
            OrderTextFacts.Add(OrderTexts.Of(order), frame, scribe);
            OrderTimingReader.ReadMoment(order.Occurrence, frame, scribe);
        }

        if (UnreadOrderParts.Of(order, scribe.Into, scribe.Map).Any())
        {
            scribe.Fact(frame, UnreadOrderParts.Ordinal, Concepts.OrderUnread, FactValue.Text);
        }

        OrderFrame.AddTies(order.BasedOn, order.Replaces, order.Requisition, scribe);
    }

    /// <summary>doNotPerform stands there and is no truth value, such as a text "true": nothing else the order says can then be used.</summary>
    internal static bool IsForbiddingUnreadable(ServiceRequest order) => order.DoNotPerformElement?.JsonValue is not (null or bool);

    /// <summary>What an order not to suction forbids in words is not read: they may forbid a route alone, or the act.</summary>
    internal static bool LeavesTextUnread(ServiceRequest order) => IsForbiddingUnreadable(order) || Raw.Truth(order.DoNotPerformElement) == true;

    // An order not to do something beside a coded detail forbids that detail, not the act: no deep suction is shallow suction, and of
    // the others nobody can say what is asked for instead. Beside words or codings that were not read it may forbid a route, deep
    // suction or saline alone, or the act: nobody can tell which. Of the act, a period says until when.
    private static void AddForbidding(ServiceRequest order, bool isForbidden, int asks, int details, in Frame frame, Scribe scribe)
    {
        var facts = scribe.Into.Facts;
        if (isForbidden && facts.Count == details && UnreadOrderParts.Of(order, scribe.Into, scribe.Map).Any())
        {
            facts.RemoveRange(asks, details - asks);
            scribe.Fact(Within(order.Occurrence, frame), 0, Concepts.OrderDoNotSuction, FactValue.Unreadable);
            return;
        }

        if (!isForbidden || facts.Count == details)
        {
            facts.RemoveRange(asks, isForbidden ? details - asks : 0);
            scribe.Fact(isForbidden ? Within(order.Occurrence, frame) : frame, 0, Concepts.OrderDoNotSuction, isForbidden ? FactValue.Yes : FactValue.No);
            return;
        }

        for (var i = facts.Count - 1; i >= details; i--)
        {
            var isDeep = facts[i].Concept == Concepts.DepthTechnique && facts[i].Value.Symbol == Answers.Of("deep");
            facts[i] = facts[i] with { Value = isDeep ? FactValue.Code(Answers.Of("shallow")) : FactValue.Unreadable };
        }

        // What it says of when is when not to.
        facts.RemoveRange(asks, details - asks);
        scribe.Fact(frame, 0, Concepts.OrderDoNotSuction, FactValue.No);
    }

    // A time that is no instant bounds nothing: the prohibition then stands.
    private static Frame Within(DataType? occurrence, Frame frame)
    {
        if (occurrence is Period period)
        {
            frame.From = TryInstant(period.StartElement, out var start) ? Math.Max(frame.From, start) : frame.From;
            frame.To = TryInstant(period.EndElement, out var end) && end > frame.From ? end : frame.To;
        }

        return frame;
    }

    private static bool TryInstant(FhirDateTime? written, out long ticks) =>
        FhirTime.Read(Encoding.UTF8.GetBytes(Raw.Text(written) ?? ""), out ticks, out _) == TimeForm.Exact;

    private static void AddDetail(string? system, string code, ushort ordinal, in Frame frame, Scribe scribe)
    {
        if (string.IsNullOrEmpty(system))
        {
            return;
        }

        if (system == CodeSystems.OrderDetail && code == "pre-oxygenate")
        {
            Add(Concepts.Preoxygenation, FactValue.Yes, ordinal, frame, scribe);
            return;
        }

        foreach (var concept in Details)
        {
            if (scribe.Map.TryAnswer(concept, system, code, out var answer))
            {
                Add(concept, FactValue.Code(answer), ordinal, frame, scribe);
            }
        }
    }

    // Full line and intermittent suction are told from other words also where nobody coded them.
    private static void AddModeByText(CodeableConcept detail, ushort ordinal, in Frame frame, Scribe scribe)
    {
        if (!scribe.Into.Facts.Exists(fact => fact.Id.Ordinal == ordinal)
            && scribe.Map.TryAnswerText(Concepts.RegulatorMode, Raw.Text(detail.TextElement) ?? "", out var mode))
        {
            Add(Concepts.RegulatorMode, FactValue.Code(mode), ordinal, frame, scribe);
        }
    }

    // What is to be suctioned, or is not, stands before the details: a ban beside it forbids that suction, and nothing of how.
    private static void AddUses(ServiceRequest order, in Frame frame, Scribe scribe)
    {
        foreach (var use in order.BodySite.Select(site => OrderSites.UseOf(site, scribe.Map)).Where(use => use > 0).Distinct())
        {
            scribe.Fact(frame, 0, Concepts.SuctionUse, FactValue.Code(use));
        }

        for (var i = 0; i < Math.Min(order.OrderDetail.Count, ushort.MaxValue); i++)
        {
            foreach (var coding in order.OrderDetail[i].Coding)
            {
                if (Raw.Text(coding.SystemElement) is { Length: > 0 } system
                    && scribe.Map.TryAnswer(Concepts.SuctionUse, system, Raw.Text(coding.CodeElement) ?? "", out var use))
                {
                    Add(Concepts.SuctionUse, FactValue.Code(use), (ushort)(i + 1), frame, scribe);
                }
            }
        }
    }

    // Two codings of one detail say one thing; where they contradict each other, nobody knows which.
    private static void Add(Concept concept, FactValue value, ushort ordinal, in Frame frame, Scribe scribe)
    {
        var facts = scribe.Into.Facts;
        var before = facts.FindIndex(fact => fact.Id.Ordinal == ordinal && fact.Concept == concept);
        if (before < 0)
        {
            scribe.Fact(frame, ordinal, concept, value);
        }
        else if (facts[before].Value != value && facts[before].Value.Kind != ValueKind.Unreadable)
        {
            facts[before] = facts[before] with { Value = FactValue.Unreadable };
            scribe.Problem(Codes.AnswersDiffer, string.Create(
                CultureInfo.InvariantCulture, $"The codings at orderDetail[{ordinal - 1}] stand for different answers of {concept.Code}."));
        }
    }

    // One reason given twice is one, and each of several has its own number.
    private static void AddReasons(ServiceRequest order, in Frame frame, Scribe scribe)
    {
        var reasons = new HashSet<int>();
        foreach (var coding in order.ReasonCode.SelectMany(reason => reason.Coding))
        {
            if (Raw.Text(coding.SystemElement) is { Length: > 0 } system
                && scribe.Map.TryAnswer(Concepts.AllowanceReason, system, Raw.Text(coding.CodeElement) ?? "", out var reason)
                && AnswerCodings.TryOrdinal(0, reasons.Count, 0, out var ordinal) && reasons.Add(reason))
            {
                scribe.Fact(frame, ordinal, Concepts.AllowanceReason, FactValue.Code(reason));
            }
        }
    }
}
