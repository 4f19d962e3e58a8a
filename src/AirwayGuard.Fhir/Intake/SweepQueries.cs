using AirwayGuard.Core.Charting;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Intake;

/// <summary>What a sweep asks for: the types that are read, and of Observations only the codes that the map knows.</summary>
public static class SweepQueries
{
    /// <summary>Codes of one question together stay under this many characters, so that addresses pass every proxy.</summary>
    private const int LongestCodes = 3_500;

    /// <summary>Who and where first, then devices, orders and acts, so that a row finds what it refers to; what we wrote ourselves last.</summary>
    private static readonly string[] Types =
    [
        "Patient", "Location", "Encounter", "Device", "DeviceMetric", "DeviceUseStatement", "Condition", "ServiceRequest", "DeviceRequest", "Procedure",
    ];

    public static IReadOnlyList<SweepQuery> For(CodeMap map)
    {
        var queries = Types.Select(type => new SweepQuery(type, type, [])).ToList();
        var (codes, length) = (new List<SweepCode>(), 0);
        foreach (var code in CodesOf(map))
        {
            var more = Uri.EscapeDataString(code.Token).Length + 1;
            if (codes.Count > 0 && length + more > LongestCodes)
            {
                queries.Add(Observations(queries, codes));
                (codes, length) = ([], 0);
            }

            codes.Add(code);
            length += more;
        }

        queries.Add(Observations(queries, codes));
        queries.Add(new SweepQuery("Flag", "Flag", []));
        queries.Add(new SweepQuery("DetectedIssue", "DetectedIssue", []));
        return queries;
    }

    private static SweepQuery Observations(List<SweepQuery> queries, List<SweepCode> codes) =>
        new($"Observation-{queries.Count(query => query.Type == "Observation") + 1}", "Observation", codes);

    // A server matches the spelling it holds and no other, so every known spelling of a system is asked for.
    private static IEnumerable<SweepCode> CodesOf(CodeMap map)
    {
        var own = new List<SweepCode>();
        foreach (var info in Concepts.Table)
        {
            if (info.IsInput)
            {
                own.Add(new SweepCode(CodeSystems.AirwayCare, info.Code));
            }
        }

        return map.Rows.SelectMany(row => map.SpellingsOf(row.System).Select(system => new SweepCode(system, row.Code))).Concat(own).Distinct();
    }
}
