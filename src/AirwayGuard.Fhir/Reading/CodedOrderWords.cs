using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Fhir.Reading;

/// <summary>What the coded parts of one order say, as it is judged: of two that differ the stricter, and the other is named.</summary>
internal static class CodedOrderWords
{
    private static readonly int Open = Answers.Of("open"), Deep = Answers.Of("deep");

    public static OrderWords Of(Core.Ports.Reading reading, EntityTable names, IEnumerable<string> unread)
    {
        var vacuum = OrderVacuumWords.Of(reading);
        var left = new List<string>(unread);
        if (vacuum.Unread is { } end)
        {
            left.Add(end);
        }

        return new OrderWords(
            names.NameOf(reading.Self), 1, vacuum.Low, vacuum.High, vacuum.IsExclusive, vacuum.Unit == Unit.None ? null : Units.Ucum(vacuum.Unit),
            Catheter(reading), Number(reading, Concepts.OrderInterval)?.Amount,
            Truth(reading, Concepts.OrderByClock, left), Truth(reading, Concepts.OrderAsNeeded, left), Truth(reading, Concepts.SalineInstilled, left),
            Answer(reading, Concepts.SuctionSystem, Open, left), Answer(reading, Concepts.DepthTechnique, Deep, left) ?? Depth(reading, left),
            Truth(reading, Concepts.Preoxygenation, left), IsForbidden(reading), left);
    }

    private static bool? IsForbidden(Core.Ports.Reading reading) => Values(reading, Concepts.OrderDoNotSuction) switch
    {
        [{ Kind: ValueKind.Unreadable }, ..] => null,
        [{ Kind: ValueKind.Yes }, ..] => true,
        _ => false,
    };

    // Of several the largest is judged.
    private static decimal? Catheter(Core.Ports.Reading reading) => reading.Facts
        .Where(fact => fact.Concept == Concepts.CatheterSize && fact.Value.IsNumber).Select(fact => (decimal?)fact.Value.Amount).Max();

    private static List<FactValue> Values(Core.Ports.Reading reading, Concept concept) => [.. reading.Facts.Where(fact => fact.Concept == concept).Select(fact => fact.Value)];

    private static FactValue? Number(Core.Ports.Reading reading, Concept concept) =>
        reading.Facts.FindIndex(fact => fact.Concept == concept && fact.Value.IsNumber) is >= 0 and var index ? reading.Facts[index].Value : null;

    // A dose above nothing, or a share of oxygen, says yes.
    private static bool? Truth(Core.Ports.Reading reading, Concept concept, List<string> left)
    {
        var said = Values(reading, concept).Select(value => value.Kind == ValueKind.Yes ? true : value.Kind == ValueKind.No ? false : value.IsNumber ? value.Amount > 0m : (bool?)null)
            .OfType<bool>().Distinct().ToList();
        if (said.Count > 1)
        {
            left.Add(OrderWords.NameOf(concept, false));
        }

        return said.Count == 0 ? null : said.Contains(true);
    }

    private static string? Answer(Core.Ports.Reading reading, Concept concept, int stricter, List<string> left)
    {
        var said = Values(reading, concept).Where(value => value.Kind == ValueKind.Code).Select(value => value.Symbol).Distinct().ToList();
        if (said.Count == 0)
        {
            return null;
        }

        var judged = said.Contains(stricter) ? stricter : said[0];
        left.AddRange(said.Where(other => other != judged).Select(Answers.Code));
        return Answers.Code(judged);
    }

    private static string? Depth(Core.Ports.Reading reading, List<string> left)
    {
        var said = Values(reading, Concepts.InsertionDepth).Where(value => value.IsNumber).OrderByDescending(Millimetres).ToList();
        left.AddRange(said.Where(depth => Millimetres(depth) < Millimetres(said[0])).Select(Written).Distinct(StringComparer.Ordinal));
        return said.Count == 0 ? null : Written(said[0]);
    }

    private static decimal Millimetres(FactValue depth) => depth.Unit == Unit.Centimetre ? depth.Magnitude * 10m : depth.Magnitude;

    // Centimetres, as the text of an order is given too.
    private static string Written(FactValue depth) => depth.Unit is Unit.Millimetre or Unit.Centimetre
        ? string.Create(CultureInfo.InvariantCulture, $"{Millimetres(depth) / 10m} cm")
        : string.Create(CultureInfo.InvariantCulture, $"{depth.Amount} {Units.Ucum(depth.Unit)}");
}
