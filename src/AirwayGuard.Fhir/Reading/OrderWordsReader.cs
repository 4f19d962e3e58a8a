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
        var high = Number(reading, Concepts.OrderVacuumHigh);
        var low = Number(reading, Concepts.OrderVacuumLow);
        var vacuum = high ?? low;
        return new OrderWords(
            names.NameOf(reading.Self), 1, low?.Magnitude, high?.Magnitude, high?.Comparator == Comparator.Below,
            vacuum is { Unit: not Unit.None } charted ? Units.Ucum(charted.Unit) : null,
            Number(reading, Concepts.CatheterSize)?.Amount, Number(reading, Concepts.OrderInterval)?.Amount,
            Truth(reading, Concepts.OrderByClock), Truth(reading, Concepts.OrderAsNeeded), Truth(reading, Concepts.SalineInstilled),
            Answer(reading, Concepts.SuctionSystem), Answer(reading, Concepts.DepthTechnique) ?? Depth(reading),
            Truth(reading, Concepts.Preoxygenation), Truth(reading, Concepts.OrderDoNotSuction) == true,
            [.. unread]);
    }

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
