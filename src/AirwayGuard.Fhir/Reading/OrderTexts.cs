using System.Globalization;
using System.Text;
using AirwayGuard.Core.Orders;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>The texts of an order as one document, a line each, and which element each line stands in.</summary>
internal sealed class OrderTexts
{
    private const int Longest = 500;

    private readonly StringBuilder _document = new();
    private readonly List<Line> _lines = [];

    // What stands behind says nothing of whether suction is ordered at all.
    private int _naming;

    private OrderText? _read;
    private string? _whole;

    private readonly record struct Line(string Element, int Start, int Length, bool MaySayNothing);

    public string Document => _whole ??= _document.ToString();

    public bool IsEmpty => _lines.Count == 0;

    private bool IsCoded { get; init; }

    public static OrderTexts Of(ServiceRequest order)
    {
        // A code that nobody mapped says that the order was thought of as one act; without any the text alone must name it.
        var texts = new OrderTexts { IsCoded = order.Code?.Coding.Count > 0 };
        foreach (var (element, words) in OrderName.Of(order.Code, "code"))
        {
            // What a code displays says no more than the code.
            texts.Add(element, words, Raw.Text(order.Code?.TextElement) is null || OrderActText.Beyond(order.Code, forbids: false) is null);
        }

        for (var i = 0; i < order.OrderDetail.Count; i++)
        {
            texts.Add(string.Create(CultureInfo.InvariantCulture, $"orderDetail[{i}].text"), UnreadOrderParts.TextBeside(order.OrderDetail[i]));
        }

        texts.AddNotes(order.Note);
        texts.Add("patientInstruction", Raw.Text(order.PatientInstructionElement));
        texts._naming = texts._document.Length;
        texts.Add("occurrenceTiming.code.text", TimingText.Of(order.Occurrence));
        texts.AddSaying(SayingParts.Of(order));
        return texts;
    }

    public static OrderTexts Of(DeviceRequest order)
    {
        var texts = new OrderTexts { IsCoded = true };
        for (var i = 0; i < order.Parameter.Count; i++)
        {
            if (order.Parameter[i].Value is CodeableConcept { Coding.Count: > 0 } value && order.Parameter[i].ModifierExtension.Count == 0)
            {
                texts.Add(string.Create(CultureInfo.InvariantCulture, $"parameter[{i}].valueCodeableConcept.text"), UnreadOrderParts.TextBeside(value));
            }
        }

        texts.AddNotes(order.Note);
        texts.AddSaying(SayingParts.Of(order));
        return texts;
    }

    /// <summary>Its words alone name suction of the airway.</summary>
    public bool NamesAirwaySuction => OrderTextMemo.NamesAirwaySuction(Document[.._naming]);

    /// <summary>Of an order that is known to be one of airway suction.</summary>
    public OrderText Read() => _read ??= OrderTextMemo.Read(Document, IsCoded);

    /// <summary>The words a fact was taken from, or that were left unread; null for none.</summary>
    /// <param name="ordinal">As <see cref="TextOrdinal"/> counts.</param>
    public string? WordsOf(int ordinal)
    {
        var spans = SpansOf(ordinal);
        return spans.Count == 0 ? null : string.Join(" | ", spans.Select(Words));
    }

    /// <summary>Where those words stand, with the text around them; null for none.</summary>
    public string? PlaceOf(int ordinal)
    {
        var places = SpansOf(ordinal)
            .GroupBy(span => _lines.FindLast(one => one.Start <= span.Start))
            .Select(spans => $"{spans.Key.Element}, characters {string.Join(", ", spans.Select(span => Within(span, spans.Key)))} of: {Words(new TextSpan(spans.Key.Start, spans.Key.Length))}")
            .ToList();
        return places.Count == 0 ? null : string.Join("; ", places);
    }

    private static string Within(TextSpan span, Line line) =>
        string.Create(CultureInfo.InvariantCulture, $"{span.Start - line.Start + 1} to {span.Start - line.Start + span.Length}");

    /// <summary>The words of a stretch, cut where they are more than a reader takes in.</summary>
    public string Words(TextSpan span) => span.Length <= Longest ? Document.Substring(span.Start, span.Length) : Document.AsSpan(span.Start, Longest).ToString() + "…";

    /// <summary>The element a stretch of the document begins in.</summary>
    public string ElementOf(TextSpan span)
    {
        var line = _lines.FindLastIndex(one => one.Start <= span.Start);
        return line < 0 ? "text" : _lines[line].Element;
    }

    /// <summary>Texts of which nothing was taken and nothing named as unread: they are unread as a whole.</summary>
    public IEnumerable<TextSpan> Untouched(OrderText text)
    {
        var touched = text.Parts.SelectMany(part => part.Taken.Select(taken => taken.Span).Concat(part.Unread)).Concat(text.Unread).ToList();
        return _lines.Where(line => !line.MaySayNothing && !touched.Exists(span => span.Start < line.Start + line.Length && span.End > line.Start))
            .Select(line => new TextSpan(line.Start, line.Length));
    }

    private List<TextSpan> SpansOf(int ordinal)
    {
        var (read, index) = (Read(), TextOrdinal.PartOf(ordinal));
        var part = index >= 0 && index < read.Parts.Count ? read.Parts[index] : null;
        if (TextOrdinal.FieldOf(ordinal) is { } field)
        {
            // Whether by the clock is said by interval and need together.
            var isClock = field == OrderField.ByClock;
            return [.. (part?.Taken ?? []).Where(taken => taken.Field == field || (isClock && taken.Field is OrderField.Interval or OrderField.AsNeeded)).Select(taken => taken.Span).OrderBy(span => span.Start)];
        }

        var rest = index == 0 && TextOrdinal.IsUnread(ordinal) ? Untouched(read).Concat(read.Unread) : [];
        return index < 0 ? [] : [.. part?.Unread ?? [], .. rest];
    }

    private void AddSaying(IEnumerable<(string Element, string? Text)> parts)
    {
        foreach (var (element, text) in parts)
        {
            Add(element, text);
        }
    }

    private void AddNotes(List<Annotation> notes)
    {
        for (var i = 0; i < notes.Count; i++)
        {
            Add(string.Create(CultureInfo.InvariantCulture, $"note[{i}].text"), Raw.Text(notes[i].TextElement));
        }
    }

    private void Add(string element, string? text, bool maySayNothing = false)
    {
        if (string.IsNullOrWhiteSpace(text))
        {
            return;
        }

        if (_document.Length > 0)
        {
            _document.Append('\n');
        }

        _lines.Add(new Line(element, _document.Length, text.Length, maySayNothing));
        _document.Append(text);
    }
}
