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
    public IReadOnlyList<OrderWords> Read(Arrival arrival)
    {
        var reading = new Core.Ports.Reading();
        var names = new EntityTable();
        _reader.Read(arrival, names, reading);
        if (!reading.Facts.Exists(fact => fact.Concept == Concepts.OrderStatus))
        {
            return [];
        }

        // Of coded parts alone: what texts say is taken from their own reading.
        var isTimed = reading.Facts.RemoveAll(fact => fact.Id.Ordinal >= TextOrdinal.First) >= 0 && IsTimed(reading);
        var (unread, texts) = PocoParse.Read(JsonCheck.WithoutMark(arrival.Body), out _) switch
        {
            ServiceRequest order => (UnreadOrderParts.Of(order, reading), ServiceRequestReader.LeavesTextUnread(order) ? null : OrderTexts.Of(order)),
            DeviceRequest order => (UnreadOrderParts.Of(order, reading), OrderTexts.Of(order)),
            _ => ([], null),
        };
        var coded = OfCoded(reading, names, unread);
        return texts is null or { IsEmpty: true } ? [coded] : WithTexts(coded, texts, isTimed, reading);
    }

    private static List<OrderWords> WithTexts(OrderWords coded, OrderTexts texts, bool isTimed, Core.Ports.Reading reading)
    {
        var read = texts.Read();
        var rest = texts.Untouched(read).Concat(read.Unread).Select(texts.Words);
        if (read.Parts.Count == 0)
        {
            return [coded with { Unread = [.. coded.Unread, .. rest] }];
        }

        var parts = read.Parts.Select((part, index) => OfText(coded.Order, index + 1, part, texts, isTimed, reading)).ToList();
        var first = coded.With(parts[0]);
        parts[0] = first with { Unread = [.. first.Unread, .. rest] };
        return parts;
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

    private static bool IsTimed(Core.Ports.Reading reading) =>
        reading.Facts.Exists(fact => fact.Concept == Concepts.OrderByClock || fact.Concept == Concepts.OrderInterval || fact.Concept == Concepts.OrderAsNeeded);

    private static OrderWords OfCoded(Core.Ports.Reading reading, EntityTable names, IEnumerable<string> unread)
    {
        var vacuum = OrderVacuumWords.Of(reading);
        return new OrderWords(
            names.NameOf(reading.Self), 1, vacuum.Low, vacuum.High, vacuum.IsExclusive, vacuum.Unit == Unit.None ? null : Units.Ucum(vacuum.Unit),
            Catheter(reading), Number(reading, Concepts.OrderInterval)?.Amount,
            Truth(reading, Concepts.OrderByClock), Truth(reading, Concepts.OrderAsNeeded), Truth(reading, Concepts.SalineInstilled),
            Answer(reading, Concepts.SuctionSystem), Answer(reading, Concepts.DepthTechnique) ?? Depth(reading),
            Truth(reading, Concepts.Preoxygenation), IsForbidden(reading),
            [.. unread, .. vacuum.Unread is { } end ? (string[])[end] : []]);
    }

    private static bool? IsForbidden(Core.Ports.Reading reading) => Find(reading, Concepts.OrderDoNotSuction) switch
    {
        { Kind: ValueKind.Unreadable } => null,
        { Kind: ValueKind.Yes } => true,
        _ => false,
    };

    // Of several the largest is judged.
    private static decimal? Catheter(Core.Ports.Reading reading) => reading.Facts
        .Where(fact => fact.Concept == Concepts.CatheterSize && fact.Value.IsNumber).Select(fact => (decimal?)fact.Value.Amount).Max();

    private static FactValue? Find(Core.Ports.Reading reading, Concept concept)
    {
        var index = reading.Facts.FindIndex(fact => fact.Concept == concept);
        return index < 0 ? null : reading.Facts[index].Value;
    }

    private static FactValue? Number(Core.Ports.Reading reading, Concept concept) =>
        Find(reading, concept) is { IsNumber: true } value ? value : null;

    // A dose above nothing, or a share of oxygen, says yes.
    private static bool? Truth(Core.Ports.Reading reading, Concept concept) => Find(reading, concept) switch
    {
        { Kind: ValueKind.Yes } => true,
        { Kind: ValueKind.No } => false,
        { IsNumber: true } value => value.Amount > 0m,
        _ => null,
    };

    private static string? Answer(Core.Ports.Reading reading, Concept concept) =>
        Find(reading, concept) is { Kind: ValueKind.Code } value ? Answers.Code(value.Symbol) : null;

    private static string? Depth(Core.Ports.Reading reading) => Number(reading, Concepts.InsertionDepth) is { } depth
        ? string.Create(CultureInfo.InvariantCulture, $"{depth.Amount} {Units.Ucum(depth.Unit)}")
        : null;
}
