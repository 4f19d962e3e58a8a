using System.Text.Json;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Tests.Pages;

/// <summary>One code of the shipped map of standard codes.</summary>
/// <param name="Target">The code system its group leads to.</param>
/// <param name="Means">Our code; empty for what is left out on purpose.</param>
internal sealed record StandardCode(string System, string Target, string Code, string Display, string Means, string Equivalence, string Comment, bool IsSetting)
{
    /// <summary>The one row whose answer it is; empty for every row that has such an answer.</summary>
    public string Row { get; private init; } = "";

    public string SystemName => System switch
    {
        "http://loinc.org" => "LOINC",
        "http://snomed.info/sct" => "SNOMED CT",
        "urn:iso:std:iso:11073:10101" => "MDC",
        _ => throw new InvalidOperationException($"The page has no name for the system {System}."),
    };

    public static IReadOnlyList<StandardCode> All { get; } = [.. Read()];

    private static IEnumerable<StandardCode> Read()
    {
        using var map = JsonDocument.Parse(ShippedMaps.Standard.Json);
        foreach (var group in map.RootElement.GetProperty("group").EnumerateArray())
        {
            foreach (var element in group.GetProperty("element").EnumerateArray())
            {
                var target = element.GetProperty("target")[0];
                yield return new StandardCode(
                    Text(group, "source"), Text(group, "target"), Text(element, "code"), Text(element, "display"),
                    Text(target, "code"), Text(target, "equivalence"), Text(target, "comment"), IsOfSetting(target))
                {
                    Row = target.TryGetProperty("dependsOn", out var rows) ? Text(rows[0], "value") : "",
                };
            }
        }
    }

    private static bool IsOfSetting(JsonElement target) =>
        target.TryGetProperty("product", out var products)
        && products.EnumerateArray().Any(product => Text(product, "property") == CodeSystems.Setting && Text(product, "value") == "true");

    private static string Text(JsonElement element, string member) => element.TryGetProperty(member, out var value) ? value.GetString() ?? "" : "";
}
