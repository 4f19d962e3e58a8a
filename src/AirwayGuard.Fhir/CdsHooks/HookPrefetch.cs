using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Questions;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>One thing that a question about orders needs to know of a patient nobody follows.</summary>
/// <param name="Query">With the standard's tokens.</param>
/// <param name="NewestFirst">Sorted so that a first page holds what counts; of the others all pages are needed.</param>
public sealed record PrefetchKey(string Key, string Query, bool NewestFirst)
{
    public string QueryOf(string patientId) => Query.Replace(PatientToken, Uri.EscapeDataString(patientId), StringComparison.Ordinal);

    internal const string PatientToken = "{{context.patientId}}";
}

/// <summary>What to ask an EHR for with its questions: derived from what the rules that judge orders read.</summary>
public static class HookPrefetch
{
    /// <summary>Rows of a page: more than two days of hourly charting of a few rows.</summary>
    private const int Rows = 100;

    public static ImmutableArray<PrefetchKey> Of(CodeMap map, OrderQuestion question)
    {
        var keys = ImmutableArray.CreateBuilder<PrefetchKey>();
        keys.Add(new PrefetchKey("patient", $"Patient/{PrefetchKey.PatientToken}", false));
        keys.Add(Search("encounters", "Encounter", "", false));
        keys.Add(Search("devices", "Device", "", false));
        keys.Add(Search("deviceUses", "DeviceUseStatement", "", false));
        keys.Add(Search("conditions", "Condition", "", false));
        AddRows(keys, "airwayRows", map, question.Always);
        AddRows(keys, "recentRows", map, question.Recent);
        return keys.ToImmutable();
    }

    private static void AddRows(ImmutableArray<PrefetchKey>.Builder keys, string key, CodeMap map, ImmutableArray<Concept> concepts)
    {
        var codes = concepts.SelectMany(concept => CodesOf(map, concept)).Distinct(StringComparer.Ordinal).ToList();
        if (codes.Count > 0)
        {
            keys.Add(Search(key, "Observation", $"&code={string.Join(',', codes)}&_sort=-date&_count={Rows}", true));
        }
    }

    private static IEnumerable<string> CodesOf(CodeMap map, Concept concept) =>
        (Concepts.Info(concept).IsInput ? new[] { $"{CodeSystems.AirwayCare}|{Concepts.Info(concept).Code}" } : [])
            .Concat(map.Rows.Where(row => row.Concept == concept).SelectMany(row => map.SpellingsOf(row.System).Select(system => $"{system}|{row.Code}")));

    private static PrefetchKey Search(string key, string type, string more, bool newestFirst) =>
        new(key, $"{type}?patient={PrefetchKey.PatientToken}{more}", newestFirst);
}
