using System.Globalization;
using System.Security.Cryptography;
using System.Text;
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

    /// <summary>Questions about deletions of what is read; of our own Flags and issues the writer learns when it writes.</summary>
    public static IReadOnlyList<SweepQuery> Deletions { get; } =
        [.. Types.Append("Observation").Select(static type => new SweepQuery("deleted-" + type, type, []) { AsksDeletions = true })];

    /// <summary>
    /// The questions for a map. One about codes is named for the codes it asks for: where they change it is another question, has no
    /// cursor yet, and is asked from the beginning; the cursor of the old one is asked for no more.
    /// </summary>
    public static IReadOnlyList<SweepQuery> For(CodeMap map)
    {
        var queries = Types.Select(type => new SweepQuery(type, type, [])).ToList();
        queries.AddRange(Groups(map).Select(static (codes, before) => new SweepQuery($"Observation-{Digest(codes)}", "Observation", codes)
        {
            ReadsComponents = true,
            Channel = string.Create(CultureInfo.InvariantCulture, $"Observation-{before + 1}"),
        }));
        queries.Add(new SweepQuery("Flag", "Flag", []));
        queries.Add(new SweepQuery("DetectedIssue", "DetectedIssue", []));
        return queries;
    }

    // System by system, so that a code added to a site's map does not start the questions about all others anew.
    private static IEnumerable<List<SweepCode>> Groups(CodeMap map)
    {
        foreach (var system in RowCodes(map).GroupBy(static row => row.System, StringComparer.Ordinal))
        {
            var (codes, length) = (new List<SweepCode>(), 0);

            // A server matches the spelling it holds and no other, so every known spelling of a system is asked for.
            foreach (var code in system.SelectMany(row => map.SpellingsOf(row.System).Select(spelling => row with { System = spelling })))
            {
                var more = Uri.EscapeDataString(code.Token).Length + 1;
                if (codes.Count > 0 && length + more > LongestCodes)
                {
                    yield return codes;
                    (codes, length) = ([], 0);
                }

                codes.Add(code);
                length += more;
            }

            yield return codes;
        }
    }

    private static IEnumerable<SweepCode> RowCodes(CodeMap map)
    {
        var own = new List<SweepCode>();
        foreach (var info in Concepts.Table)
        {
            if (info.IsInput)
            {
                own.Add(new SweepCode(CodeSystems.AirwayCare, info.Code));
            }
        }

        return own.Concat(map.Rows.Select(static row => new SweepCode(row.System, row.Code))).Distinct();
    }

    private static string Digest(List<SweepCode> codes)
    {
        // Named for how it is asked, too: what was asked by the row's own code only has left rows out.
        var sorted = string.Join('\n', codes.Select(static code => code.Token).Order(StringComparer.Ordinal).Prepend(SweepQuery.InComponentsToo));
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(sorted)).AsSpan(0, 6));
    }
}
