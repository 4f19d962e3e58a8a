using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Orders;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>What ServiceRequest and DeviceRequest have in common.</summary>
internal static class OrderFrame
{
    private static readonly string[] Intents =
        ["proposal", "plan", "directive", "order", "original-order", "reflex-order", "filler-order", "instance-order", "option"];

    private static readonly string[] Statuses = ["draft", "active", "on-hold", "revoked", "completed", "unknown"];

    /// <summary>Status, intent and patient; false, and told, where the order cannot be used.</summary>
    public static bool TryBegin(
        PrimitiveType? status, PrimitiveType? intent, PrimitiveType? authoredOn, ResourceReference? subject, ResourceReference? encounter,
        Resource order, Arrival arrival, Scribe scribe, out Frame frame)
    {
        frame = new Frame { About = scribe.Self, Act = scribe.Self, To = long.MaxValue };
        if (!PocoParts.IsUsable(status, scribe, Statuses, []) || !PocoParts.TryPatient(subject, scribe, out var patient)
            || !TryAuthored(authoredOn, order, arrival, scribe, ref frame))
        {
            return false;
        }

        if (Raw.Text(intent) is not { Length: > 0 } meant)
        {
            scribe.Problem(Codes.StatusUnknown, "The order has no intent.");
            return false;
        }

        if (!Intents.Contains(meant))
        {
            scribe.Problem(Codes.StatusUnknown, "The order's intent is none of R4.");
        }

        // It is kept, since another version may have said more, and not judged.
        if (Raw.Text(status) == "unknown")
        {
            scribe.Problem(Codes.StatusUnknown, "Of the order it is not known whether it holds.");
        }

        frame.Encounter = scribe.Target(PocoParts.Address(encounter), "Encounter"u8, EntityKind.Encounter);
        scribe.Fact(frame, 0, Concepts.OrderStatus, FactValue.Code(Answers.Of(Raw.Text(status)!)));
        if (Raw.Text(status) == "on-hold" && HeldAfter(arrival, frame.From) is { } seconds && FactValue.TryNumber(seconds, Unit.Second, out var after))
        {
            scribe.Fact(frame, 0, Concepts.OrderHeldAfter, after);
        }

        scribe.Fact(frame, 0, Concepts.OrderIntent, FactValue.Code(
            Answers.TryFind(Concepts.OrderIntent, meant, out var listed) ? listed : Answers.Proposal));
        scribe.Link(LinkKind.OrderFor, scribe.Self, patient, frame.From);
        return true;
    }

    public static void AddTies(IEnumerable<ResourceReference> basedOn, IEnumerable<ResourceReference> replaces, Identifier? group, Scribe scribe)
    {
        foreach (var order in basedOn)
        {
            scribe.Link(LinkKind.BasedOn, scribe.Self, scribe.Target(PocoParts.Address(order), "ServiceRequest"u8, EntityKind.Order));
        }

        foreach (var order in replaces)
        {
            scribe.Link(LinkKind.Replaces, scribe.Self, scribe.Target(PocoParts.Address(order), "ServiceRequest"u8, EntityKind.Order));
        }

        if (PocoParts.Key(group) is { Length: > 0 } key)
        {
            scribe.Link(LinkKind.GroupedBy, scribe.Self, scribe.Intern(EntityKind.GroupKey, Encoding.UTF8.GetBytes(key)));
        }
    }

    /// <summary>Coded as the act of suctioning the airway.</summary>
    public static bool IsCoded(CodeableConcept? code, Desk desk) =>
        PocoParts.TryMeaning(code, desk, out var mapping, out _) && mapping.Concept == Concepts.SuctionPass;

    /// <summary>A code of a system that nobody mapped says nothing, so that the text decides.</summary>
    public static bool MayBeNamedByText(CodeableConcept? code, Desk desk) =>
        !PocoParts.TryMeaning(code, desk, out _, out _) && code?.Coding.TrueForAll(coding => !IsKnown(coding, desk.Scribe)) != false;

    /// <summary>Equipment coded as the act, or named so by its words alone.</summary>
    public static bool IsAirwaySuction(DataType? code, Desk desk) =>
        IsCoded(code as CodeableConcept, desk)
        || (MayBeNamedByText(code as CodeableConcept, desk) && OrderName.Of(code).Any(static name => OrderTextMemo.NamesAirwaySuction(name.Words)));

    /// <summary>An order of suction of another part: coded as one that is not judged, or named so by its text.</summary>
    public static bool IsOtherSuction(CodeableConcept? code, Desk desk) =>
        IsLeftOut(code, desk.Scribe) || OrderName.Of(code, "code").Any(static name => NamesOtherSuction(name.Words));

    /// <summary>A map leaves one of its codes out on purpose.</summary>
    public static bool IsLeftOut(CodeableConcept? code, Scribe scribe) =>
        code?.Coding.Exists(coding => scribe.Map.IsIgnored(Raw.Text(coding.SystemElement) ?? "", Raw.Text(coding.CodeElement) ?? "")) == true;

    /// <summary>One of its codes is of a system that says what things are, and is no suction of the airway: its text decides nothing.</summary>
    public static bool IsKnownOtherwise(CodeableConcept? code, Scribe scribe) => code?.Coding.Exists(coding => IsKnown(coding, scribe)) == true;

    private static bool NamesOtherSuction(string text) => Words(text).Any(IsSuction) && !OrderTextMemo.NamesAirwaySuction(text);

    private static bool IsKnown(Coding coding, Scribe scribe)
    {
        var system = Raw.Text(coding.SystemElement) ?? "";
        return scribe.Map.Canonical(system) is "http://snomed.info/sct" or "http://loinc.org"
            || scribe.Map.IsIgnored(system, Raw.Text(coding.CodeElement) ?? "");
    }

    private static string[] Words(string text) =>
        new string([.. text.Select(c => char.IsLetter(c) ? c : ' ')]).Split(' ', StringSplitOptions.RemoveEmptyEntries);

    private static bool IsSuction(string word) => word.StartsWith("suction", StringComparison.OrdinalIgnoreCase);

    // Whose order it was is all that is kept: what is part of it must be told from what stands alone.
    public static void KeepPlace(ResourceReference? subject, Scribe scribe)
    {
        var patient = scribe.Target(PocoParts.Address(subject), "Patient"u8, EntityKind.Patient);
        if (!patient.IsNone)
        {
            scribe.Link(LinkKind.OrderFor, scribe.Self, patient);
        }
    }

    // A first version was on hold from the beginning. Of a later one nobody knows what the versions before it said, so that it holds
    // from when it was saved: nobody is told of a hold that came after the pass.
    private static decimal? HeldAfter(Arrival arrival, long written) =>
        arrival.Version is { Length: > 0 } version && version != "1" && arrival.KnownAt > DateTimeOffset.UnixEpoch && arrival.KnownAt.UtcTicks > written
            ? (arrival.KnownAt.UtcTicks - written) / TimeSpan.TicksPerSecond
            : null;

    private static bool TryAuthored(PrimitiveType? authoredOn, Resource order, Arrival arrival, Scribe scribe, ref Frame frame)
    {
        var written = Raw.Text(authoredOn) ?? Raw.Text(order.Meta?.LastUpdatedElement);
        if (written is not null)
        {
            return EffectiveTime.TryRead(Encoding.UTF8.GetBytes(written), "authored", scribe, out frame.From, out frame.OffsetMinutes);
        }

        frame.From = arrival.KnownAt.UtcTicks;
        if (arrival.KnownAt > DateTimeOffset.UnixEpoch)
        {
            return true;
        }

        scribe.Unreadable(Codes.NoTime, "The order says neither when it was written nor when it was last changed.");
        return false;
    }
}
