using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Orders;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Terminology;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// What of an order nothing was read from, as written: its texts, coded parts that are not known, and parts without a value that can
/// be read. Charted content, not for logs.
/// </summary>
internal static class UnreadOrderParts
{
    /// <summary>Number of the fact that says that something structured was not read: above those of the parts, below those of texts.</summary>
    public const ushort Ordinal = TextOrdinal.First - 1;

    /// <summary>Of an order not to suction the texts too: what of it they forbid is not read.</summary>
    /// <param name="read">What was read of it: the facts of its n-th detail have the ordinal n, counted from 1.</param>
    public static IEnumerable<string> Of(ServiceRequest order, Core.Ports.Reading read, CodeMap map)
    {
        var parts = new List<string?>();
        if (ServiceRequestReader.IsForbiddingUnreadable(order))
        {
            parts.Add("doNotPerform");
        }

        var isTextUnread = ServiceRequestReader.LeavesTextUnread(order);
        if (isTextUnread)
        {
            parts.Add(OrderActText.Beyond(order.Code, forbids: true));
            parts.AddRange(OrderActText.BeyondDisplayed(order.Code, map));
        }

        for (var i = 0; i < order.OrderDetail.Count; i++)
        {
            AddDetail(order.OrderDetail[i], i + 1, read, isTextUnread, parts);
        }

        AddSites(order, map, parts);
        parts.Add(QuantityOf(order.Quantity));
        if (Raw.Truth(order.DoNotPerformElement) == true)
        {
            AddWhen(order, parts);
        }

        if (isTextUnread)
        {
            parts.AddRange(order.Note.Select(note => Raw.Text(note.TextElement)));
            parts.Add(Raw.Text(order.PatientInstructionElement));
        }

        AddTiming(order.Occurrence, read, Raw.Truth(order.DoNotPerformElement) == true, parts);
        return Said(parts);
    }

    // A site of the airway asks nothing more where suction is asked for; where it is forbidden, the site may be all that is. Of two places each is named.
    private static void AddSites(ServiceRequest order, CodeMap map, List<string?> parts)
    {
        var uses = order.BodySite.Select(site => OrderSites.UseOf(site, map)).ToList();
        var isPlain = Raw.Truth(order.DoNotPerformElement) != true && uses.Where(use => use > 0).Distinct().Count() < 2;
        parts.AddRange(order.BodySite.Where((_, i) => !isPlain || uses[i] == 0).Select(site => NameOf(site) ?? "bodySite"));
    }

    // A ban under a condition, or at a time, leaves open whether it is one now.
    private static void AddWhen(ServiceRequest order, List<string?> parts)
    {
        if (order.AsNeeded is CodeableConcept condition)
        {
            parts.Add(NameOf(condition) ?? "asNeeded");
        }

        if (order.Occurrence is FhirDateTime moment)
        {
            parts.Add(Raw.Text(moment) ?? "occurrence");
        }
    }

    /// <summary>The text of a detail that says more than its codes' displays and than a regulator's mode; null for none.</summary>
    public static string? TextBeside(CodeableConcept detail)
    {
        var text = Raw.Text(detail.TextElement);
        var isSaid = string.IsNullOrWhiteSpace(text) || Answers.TryFind(Concepts.RegulatorMode, text.Trim().ToLowerInvariant(), out _)
            || detail.Coding.Exists(coding => string.Equals(Raw.Text(coding.DisplayElement)?.Trim(), text.Trim(), StringComparison.OrdinalIgnoreCase));
        return isSaid ? null : text;
    }

    /// <param name="read">What was read of it: the facts of its n-th parameter have the ordinal n, counted from 1.</param>
    public static IEnumerable<string> Of(DeviceRequest order, Core.Ports.Reading read)
    {
        var parts = new List<string?>();
        for (var i = 0; i < order.Parameter.Count; i++)
        {
            if (BypassOf(read, i + 1) is { } mode)
            {
                parts.Add(mode);
            }
            else if (!IsRead(read, i + 1) || !IsUsed(read, i + 1))
            {
                parts.Add(Said(NameOf(order.Parameter[i].Code) ?? "parameter", ValueOf(order.Parameter[i].Value)));
            }
        }

        return Said(parts);
    }

    // A text beside a code that was read may say more than the code, unless it is the code's own display.
    private static void AddDetail(CodeableConcept detail, int ordinal, Core.Ports.Reading read, bool isTextUnread, List<string?> parts)
    {
        parts.Add(BypassOf(read, ordinal));
        var text = TextBeside(detail);
        if (text is null && !(IsRead(read, ordinal) && IsUsed(read, ordinal)))
        {
            parts.Add(NameOf(detail));
        }
        else if (isTextUnread)
        {
            parts.Add(text);
        }
    }

    // Its text is read with the others', and named by them where it is not; not that of a ban. A period bounds an order and asks for
    // nothing in it: alone it says when, and not how.
    private static void AddTiming(DataType? occurrence, Core.Ports.Reading read, bool isBan, List<string?> parts)
    {
        if (occurrence is Timing timing && (timing.ModifierExtension.Count > 0 || (isBan && !OrderTimingReader.IsStructured(timing)) || read.Problems.Exists(problem => problem.Code == Codes.TimingUnread)))
        {
            parts.Add(NameOf(timing.Code) ?? "timing");
        }
        else if (occurrence is Period period && !isBan && !OrderTimingReader.SaysWhen(read))
        {
            parts.Add(Said(Raw.Text(period.StartElement), "to", Raw.Text(period.EndElement)));
        }
    }

    private static bool IsRead(Core.Ports.Reading read, int ordinal) =>
        read.Facts.Exists(fact => fact.Id.Ordinal == ordinal)
        && !read.Facts.Exists(fact => fact.Id.Ordinal == ordinal && fact.Value.Kind == ValueKind.Unreadable);

    private static bool IsUsed(Core.Ports.Reading read, int ordinal) => read.Facts.Exists(fact => fact.Id.Ordinal == ordinal && OrderReading.IsUsed(fact.Concept));

    private static string? BypassOf(Core.Ports.Reading read, int ordinal)
    {
        var mode = read.Facts.FindIndex(fact => fact.Id.Ordinal == ordinal && OrderedMode.IsBypass(fact));
        return mode < 0 ? null : Answers.Code(read.Facts[mode].Value.Symbol);
    }

    private static string? QuantityOf(DataType? quantity) => quantity switch
    {
        null => null,
        Quantity amount => Said("quantity", AmountOf(amount)),
        Hl7.Fhir.Model.Range range => Said("quantity", AmountOf(range.Low), "to", AmountOf(range.High)),
        _ => "quantity",
    };

    private static string? ValueOf(DataType? value) => value switch
    {
        Quantity amount => AmountOf(amount),
        Hl7.Fhir.Model.Range range => Said(AmountOf(range.Low), "to", AmountOf(range.High)),
        CodeableConcept concept => NameOf(concept),
        _ => null,
    };

    private static string AmountOf(Quantity? amount) => Said(
        Raw.Number(amount?.ValueElement)?.ToString(CultureInfo.InvariantCulture), Raw.Text(amount?.UnitElement) ?? Raw.Text(amount?.CodeElement));

    private static string Said(params string?[] words) => string.Join(' ', words.Where(word => !string.IsNullOrWhiteSpace(word)));

    private static string? NameOf(CodeableConcept? concept) => Raw.Text(concept?.TextElement)
        ?? concept?.Coding.Select(coding => Raw.Text(coding.DisplayElement) ?? Raw.Text(coding.CodeElement)).FirstOrDefault(name => name is not null);

    private static IEnumerable<string> Said(List<string?> parts) => parts.OfType<string>().Where(part => part.Trim().Length > 0);
}
