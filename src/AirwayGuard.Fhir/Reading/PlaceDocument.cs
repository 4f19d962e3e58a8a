using System.Text;
using AirwayGuard.Core.Charting;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>What a Location says of itself, for whoever tells where something stands. Nothing is judged by it, so that it makes no facts.</summary>
/// <param name="Name">As charted; empty for none.</param>
/// <param name="PartOf"><c>Location/id</c> of the place it is part of; empty where it names none.</param>
/// <param name="IsWard">Its physical type is the ward's (<c>wa</c> of HL7's location-physical-type).</param>
public sealed record PlaceDocument(string Name, string PartOf, bool IsWard)
{
    private const string PhysicalType = "http://terminology.hl7.org/CodeSystem/location-physical-type";

    /// <param name="body">One version, UTF-8 JSON.</param>
    /// <returns>Null for what is no Location, cannot be read, is marked as test data, or carries a modifier that is not understood.</returns>
    public static PlaceDocument? Read(ReadOnlyMemory<byte> body)
    {
        var plain = JsonCheck.WithoutMark(body);
        if (JsonCheck.Trouble(plain.Span, out var type) is not null || type != "Location"
            || PocoParse.Read(plain, out _) is not Location { ModifierExtension: null or [] } location || Raw.IsTestData(location))
        {
            return null;
        }

        try
        {
            return Of(location);
        }
        catch (Exception refused) when (PocoParse.IsOfAWrongForm(refused, plain))
        {
            return null;
        }
    }

    private static PlaceDocument Of(Location location)
    {
        Span<byte> scratch = stackalloc byte[ReferenceName.Longest];
        var above = Encoding.UTF8.GetBytes(PocoParts.Address(location.PartOf) ?? "");
        var partOf = ReferenceName.TryRead(above, "Location"u8, scratch, out var kind, out var name) && kind == EntityKind.Place ? Encoding.UTF8.GetString(name) : "";
        var isWard = location.PhysicalType?.Coding.Exists(coding => Raw.Text(coding.SystemElement) == PhysicalType && Raw.Text(coding.CodeElement) == "wa") == true;
        return new PlaceDocument((Raw.Text(location.NameElement) ?? "").Trim(), partOf, isWard);
    }
}
