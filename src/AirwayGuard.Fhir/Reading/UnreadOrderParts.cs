using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
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

        for (var i = 0; i < order.OrderDetail.Count; i++)
        {
            AddDetail(order.OrderDetail[i], IsRead(read, i + 1), parts);
        }

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
            var mode = read.Facts.FindIndex(fact => fact.Id.Ordinal == i + 1 && IsBypass(fact));
            if (mode >= 0)
            {
                // A mode that leaves the vacuum to the wall, or to the clock, is no instruction that can be compared with a limit.
                parts.Add(Answers.Code(read.Facts[mode].Value.Symbol));
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

    // A text beside a code that was read may say more than the code, unless it is the code's own display.
    private static void AddDetail(CodeableConcept detail, bool isRead, List<string?> parts)
    {
        var text = Raw.Text(detail.TextElement);
        if (!isRead)
        {
            parts.Add(text is { Length: > 0 } ? text : NameOf(detail));
        }
        else if (!detail.Coding.Exists(coding => string.Equals(Raw.Text(coding.DisplayElement)?.Trim(), text?.Trim(), StringComparison.OrdinalIgnoreCase)))
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

    private static bool IsBypass(in Fact fact) => fact.Concept == Concepts.RegulatorMode && fact.Value.Kind == ValueKind.Code
        && (fact.Value.Symbol == Answers.FullLine || fact.Value.Symbol == Answers.Intermittent);

    private static string? NameOf(CodeableConcept? concept) => Raw.Text(concept?.TextElement)
        ?? concept?.Coding.Select(coding => Raw.Text(coding.DisplayElement) ?? Raw.Text(coding.CodeElement)).FirstOrDefault(name => name is not null);

    private static IEnumerable<string> Said(List<string?> parts) => parts.OfType<string>().Where(part => part.Trim().Length > 0);
}
