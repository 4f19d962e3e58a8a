using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Terminology;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>Gives the words of an order: its facts as <see cref="FhirArrivalReader"/> reads them, and what was not read. Safe for concurrent use.</summary>
public sealed class OrderWordsReader(CodeMap map)
{
    private readonly FhirArrivalReader _reader = new(map);

    /// <summary>Null for what is no order of airway suction, or cannot be read.</summary>
    /// <param name="arrival">A ServiceRequest or DeviceRequest.</param>
    public OrderWords? Read(Arrival arrival)
    {
        var reading = new Core.Ports.Reading();
        var names = new EntityTable();
        _reader.Read(arrival, names, reading);
        if (!reading.Facts.Exists(fact => fact.Concept == Concepts.OrderStatus))
        {
            return null;
        }

        var unread = PocoParse.Read(JsonCheck.WithoutMark(arrival.Body), out _) switch
        {
            ServiceRequest order => UnreadOrderParts.Of(order, reading),
            DeviceRequest order => UnreadOrderParts.Of(order, reading),
            _ => [],
        };
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
