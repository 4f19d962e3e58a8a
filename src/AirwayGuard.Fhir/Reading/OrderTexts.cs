using System.Globalization;
using System.Text;
using AirwayGuard.Core.Orders;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>The texts of an order as one document, a line each, and which element each line stands in.</summary>
internal sealed class OrderTexts
{
    private readonly StringBuilder _document = new();
    private readonly List<Line> _lines = [];

    private OrderText? _read;

    private readonly record struct Line(string Element, int Start, int Length, bool MaySayNothing);

    public string Document => _document.ToString();

    public bool IsEmpty => _lines.Count == 0;

    /// <param name="read">What was read of its coded parts; the facts of the n-th detail have the ordinal n, from 1.</param>
    public static OrderTexts Of(ServiceRequest order, Core.Ports.Reading read)
    {
        var texts = new OrderTexts();
        texts.Add("code.text", Raw.Text(order.Code?.TextElement), OrderActText.Beyond(order.Code, forbids: false) is null);
        for (var i = 0; i < order.OrderDetail.Count; i++)
        {
            if (UnreadOrderParts.TextBeside(order.OrderDetail[i], i + 1, read) is { } text)
            {
                texts.Add(string.Create(CultureInfo.InvariantCulture, $"orderDetail[{i}].text"), text);
            }
        }

        texts.AddNotes(order.Note);
        texts.Add("patientInstruction", Raw.Text(order.PatientInstructionElement));
        return texts;
    }

    public static OrderTexts Of(DeviceRequest order)
    {
        var texts = new OrderTexts();
        texts.AddNotes(order.Note);
        return texts;
    }

    /// <param name="isAirwaySuction">The order is coded as one of airway suction.</param>
    public OrderText Read(bool isAirwaySuction) => _read ??= OrderTextReader.Read(Document, isAirwaySuction);

    public string Words(TextSpan span) => Document.Substring(span.Start, span.Length);

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
