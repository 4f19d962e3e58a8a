using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// What of an order nothing was read from, as written: its texts, coded parts that are not known, and parts without a value that can
/// be read. Charted content, not for logs.
/// </summary>
internal static class UnreadOrderParts
{
    /// <param name="read">What was read of it: the facts of its n-th detail have the ordinal n, counted from 1.</param>
    public static IEnumerable<string> Of(ServiceRequest order, Core.Ports.Reading read)
    {
        var parts = new List<string?>();
        if (ServiceRequestReader.IsForbiddingUnreadable(order))
        {
            parts.Add("doNotPerform");
        }

        parts.Add(OrderActText.Beyond(order.Code, Raw.Truth(order.DoNotPerformElement) == true));
        for (var i = 0; i < order.OrderDetail.Count; i++)
        {
            AddDetail(order.OrderDetail[i], IsRead(read, i + 1), BypassOf(read, i + 1), parts);
        }

        // Where suction is asked for, the site asks nothing that is judged; where it is forbidden, the site may be all that is.
        parts.AddRange(Raw.Truth(order.DoNotPerformElement) == true ? order.BodySite.Select(site => NameOf(site) ?? "bodySite") : []);
        parts.Add(QuantityOf(order.Quantity));
        parts.AddRange(order.Note.Select(note => Raw.Text(note.TextElement)));
        parts.Add(Raw.Text(order.PatientInstructionElement));
        AddTiming(order.Occurrence, read, parts);
        return Said(parts);
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
            else if (!IsRead(read, i + 1))
            {
                parts.Add(NameOf(order.Parameter[i].Code) ?? "parameter");
            }
        }

        parts.AddRange(order.Note.Select(note => Raw.Text(note.TextElement)));
        AddTiming(order.Occurrence, read, parts);
        return Said(parts);
    }

    // A text beside a code that was read may say more than the code, unless it is the code's own display. Without a code the text is what was read.
    private static void AddDetail(CodeableConcept detail, bool isRead, string? bypass, List<string?> parts)
    {
        var text = Raw.Text(detail.TextElement);
        parts.Add(bypass);
        if (!isRead)
        {
            parts.Add(text is { Length: > 0 } ? text : NameOf(detail));
        }
        else if (detail.Coding.Count > 0 && !string.Equals(bypass, text?.Trim(), StringComparison.OrdinalIgnoreCase) && !detail.Coding.Exists(coding => string.Equals(Raw.Text(coding.DisplayElement)?.Trim(), text?.Trim(), StringComparison.OrdinalIgnoreCase)))
        {
            parts.Add(text);
        }
    }

    private static void AddTiming(DataType? occurrence, Core.Ports.Reading read, List<string?> parts)
    {
        if (occurrence is Timing timing && read.Problems.Exists(problem => problem.Code == Codes.TimingUnread))
        {
            parts.Add(NameOf(timing.Code) ?? "timing");
        }
    }

    private static bool IsRead(Core.Ports.Reading read, int ordinal) =>
        read.Facts.Exists(fact => fact.Id.Ordinal == ordinal)
        && !read.Facts.Exists(fact => fact.Id.Ordinal == ordinal && fact.Value.Kind == ValueKind.Unreadable);

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

    private static string AmountOf(Quantity? amount) => Said(
        Raw.Number(amount?.ValueElement)?.ToString(CultureInfo.InvariantCulture), Raw.Text(amount?.UnitElement) ?? Raw.Text(amount?.CodeElement));

    private static string Said(params string?[] words) => string.Join(' ', words.Where(word => !string.IsNullOrWhiteSpace(word)));

    private static string? NameOf(CodeableConcept? concept) => Raw.Text(concept?.TextElement)
        ?? concept?.Coding.Select(coding => Raw.Text(coding.DisplayElement) ?? Raw.Text(coding.CodeElement)).FirstOrDefault(name => name is not null);

    private static IEnumerable<string> Said(List<string?> parts) => parts.OfType<string>().Where(part => part.Trim().Length > 0);
}
