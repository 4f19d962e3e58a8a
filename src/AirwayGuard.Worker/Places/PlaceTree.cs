using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;

namespace AirwayGuard.Worker.Places;

/// <summary>Names of places, and of which unit each is.</summary>
internal sealed class PlaceTree
{
    // Bed, room, corridor, unit, floor, house, site: deeper than this, places lie within one another in a circle.
    private const int Highest = 12;

    private readonly Dictionary<string, PlaceDocument> _places = new(StringComparer.Ordinal);

    public PlaceTree(IEnumerable<Arrival> locations)
    {
        foreach (var location in locations)
        {
            if (location.Id is { } id && PlaceDocument.Read(location.Body) is { } place)
            {
                _places["Location/" + id] = place;
            }
        }
    }

    /// <summary>A place's own name; empty where it has none.</summary>
    public string NameOf(string place) => _places.GetValueOrDefault(place)?.Name ?? "";

    /// <summary>A place and all that it is part of, the nearest first.</summary>
    public IEnumerable<string> WithAbove(string place)
    {
        var at = place;
        for (var height = 0; height < Highest && at.Length > 0; height++)
        {
            yield return at;
            at = _places.GetValueOrDefault(at)?.PartOf ?? "";
        }
    }

    /// <summary>
    /// The nearest ward that a place is, or is part of; where none is marked as one, the place that it is directly part of. A name alone
    /// (<c>ICU, bed 4</c>) is never taken apart.
    /// </summary>
    /// <returns><c>Location/id</c>; empty where nothing says so.</returns>
    public string UnitOf(string place)
    {
        var at = place;
        for (var height = 0; height < Highest && _places.TryGetValue(at, out var here); height++)
        {
            if (here.IsWard)
            {
                return at;
            }

            at = here.PartOf;
        }

        return _places.GetValueOrDefault(place)?.PartOf ?? "";
    }
}
