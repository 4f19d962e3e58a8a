using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Orders;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Terminology;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>Gives the words of the orders in a resource: what <see cref="FhirArrivalReader"/> reads of its codes, what its texts say, and what was not read. Safe for concurrent use.</summary>
public sealed class OrderWordsReader(CodeMap map)
{
    private readonly FhirArrivalReader _reader = new(map);

    /// <summary>One for each order of airway suction in it; empty for what is none, or cannot be read.</summary>
    /// <param name="arrival">A ServiceRequest or DeviceRequest.</param>
    public IReadOnlyList<OrderWords> Read(Arrival arrival) => Read([arrival]);

    /// <summary>
    /// The same of an order with the requests for equipment that belong to it: what any of them holds structured goes before what any says in
    /// words; the deeper vacuum and the larger catheter count.
    /// </summary>
    /// <param name="arrivals">The order first, whose name all bear.</param>
    public IReadOnlyList<OrderWords> Read(IEnumerable<Arrival> arrivals)
    {
        ArgumentNullException.ThrowIfNull(arrivals);
        var (coded, texts) = ((OrderWords?)null, new List<OrderWords>());
        foreach (var arrival in arrivals)
        {
            if (!TryRead(arrival, out var own, out var said))
            {
                continue;
            }

            coded = coded is null ? own : coded.With(own);
            texts = texts.Count > 0 && said.Count > 0 ? [texts[0].With(said[0]), .. texts.Skip(1), .. said.Skip(1)] : [.. texts, .. said];
        }

        return coded is null ? [] : texts.Count == 0 ? [coded]
            : [coded.With(texts[0]), .. texts.Skip(1).Select((part, index) => part with { Order = coded.Order, Part = index + 2 })];
    }

    private bool TryRead(Arrival arrival, [NotNullWhen(true)] out OrderWords? coded, out List<OrderWords> said)
    {
        var reading = new Core.Ports.Reading();
        var names = new EntityTable();
        (coded, said) = (null, []);
        _reader.Read(arrival, names, reading);
        if (!reading.Facts.Exists(fact => fact.Concept == Concepts.OrderStatus))
        {
            return false;
        }

        (IReadOnlyList<string> unread, var texts) = PocoParse.Read(JsonCheck.WithoutMark(arrival.Body), out _) switch
        {
            ServiceRequest order => ([.. UnreadOrderParts.Of(order, reading, map)], ServiceRequestReader.LeavesTextUnread(order) ? null : OrderTexts.Of(order)),
            DeviceRequest order => ([.. UnreadOrderParts.Of(order, reading)], OrderTexts.Of(order)),
            _ => ((IReadOnlyList<string>)[], (OrderTexts?)null),
        };
        // From here on of coded parts alone: what texts say is taken from their own reading.
        var isTimed = reading.Facts.RemoveAll(fact => fact.Id.Ordinal >= TextOrdinal.First) >= 0 && OrderTimingReader.SaysWhen(reading);
        coded = CodedOrderWords.Of(reading, names, unread);
        if (texts is { IsEmpty: false })
        {
            AddTexts(coded.Order, texts, isTimed, reading, said, ref coded);
        }

        return true;
    }

    private static void AddTexts(string order, OrderTexts texts, bool isTimed, Core.Ports.Reading reading, List<OrderWords> said, ref OrderWords coded)
    {
        var read = texts.Read();
        var rest = texts.Untouched(read).Concat(read.Unread).Select(texts.Words);
        if (read.Parts.Count == 0)
        {
            coded = coded with { Unread = [.. coded.Unread, .. rest] };
            return;
        }

        said.AddRange(read.Parts.Select((part, index) => OfText(order, index + 1, part, texts, isTimed, reading)));
        said[0] = said[0] with { Unread = [.. said[0].Unread, .. rest] };
    }

    private static OrderWords OfText(string order, int number, OrderPart part, OrderTexts texts, bool isTimed, Core.Ports.Reading reading)
    {
        var differs = isTimed && OrderTextFacts.TimingDiffers(part, reading)
            ? part.Taken.Where(taken => taken.Field is OrderField.Interval or OrderField.AsNeeded or OrderField.ByClock or OrderField.DoNotSuction).Select(taken => texts.Words(taken.Span))
            : [];
        return new OrderWords(
            order, number, part.VacuumLow, part.VacuumHigh, part.VacuumExclusive, part.VacuumUnit == Unit.None ? null : Units.Ucum(part.VacuumUnit), part.CatheterFr,
            isTimed ? null : part.EveryHours, isTimed ? null : part.ByClock, isTimed ? null : part.AsNeeded, part.Saline, part.System,
            part.DepthCentimetres is { } depth ? string.Create(CultureInfo.InvariantCulture, $"{depth} cm") : part.DepthWord,
            part.Preoxygenate, isTimed && part.DoNotSuction == true ? null : part.DoNotSuction, [.. part.Unread.Select(texts.Words), .. differs]);
    }
}
