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
    /// <summary>Of an order not to suction the texts too: what of it they forbid is not read.</summary>
    /// <param name="read">What was read of it: the facts of its n-th detail have the ordinal n, counted from 1.</param>
    public static IEnumerable<string> Of(ServiceRequest order, Core.Ports.Reading read)
    {
        var parts = new List<string?>();
        if (ServiceRequestReader.IsForbiddingUnreadable(order))
        {
            parts.Add("doNotPerform");
        }

        var isTextUnread = ServiceRequestReader.LeavesTextUnread(order);
        parts.Add(isTextUnread ? OrderActText.Beyond(order.Code, forbids: true) : null);
        for (var i = 0; i < order.OrderDetail.Count; i++)
        {
            AddDetail(order.OrderDetail[i], i + 1, read, isTextUnread, parts);
        }

        // Where suction is asked for, the site asks nothing that is judged; where it is forbidden, the site may be all that is.
        parts.AddRange(Raw.Truth(order.DoNotPerformElement) == true ? order.BodySite.Select(site => NameOf(site) ?? "bodySite") : []);
        parts.Add(QuantityOf(order.Quantity));
        if (isTextUnread)
        {
            parts.AddRange(order.Note.Select(note => Raw.Text(note.TextElement)));
            parts.Add(Raw.Text(order.PatientInstructionElement));
        }

        AddTiming(order.Occurrence, read, parts);
        return Said(parts);
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
            else if (!IsRead(read, i + 1))
            {
                parts.Add(NameOf(order.Parameter[i].Code) ?? "parameter");
            }
        }

        return Said(parts);
    }

    // A text beside a code that was read may say more than the code, unless it is the code's own display.
    private static void AddDetail(CodeableConcept detail, int ordinal, Core.Ports.Reading read, bool isTextUnread, List<string?> parts)
    {
        parts.Add(BypassOf(read, ordinal));
        var text = TextBeside(detail);
        if (text is null && !IsRead(read, ordinal))
        {
            parts.Add(NameOf(detail));
        }
        else if (isTextUnread)
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
