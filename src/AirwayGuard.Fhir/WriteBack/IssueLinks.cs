using System.Collections.Concurrent;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Client;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>Where the DetectedIssues of a Flag are on the server: remembered, else as the ledger knows, else searched by identifier.</summary>
internal sealed class IssueLinks(FhirHttp http, Func<Guid, CancellationToken, ValueTask<ServerVersion?>>? known)
{
    private const int MostRemembered = 20_000, KeysPerSearch = 20;
    private readonly ConcurrentDictionary<Guid, string> _ids = new();

    public void Remember(Guid key, string id)
    {
        if (_ids.Count >= MostRemembered)
        {
            _ids.Clear();
        }

        _ids[key] = id;
    }

    /// <param name="subject">Whom the Flag is of: what the server has under a key for another patient is not linked.</param>
    /// <returns>Literal references of those found once; the others are named by identifier. Trouble where it is worth trying again.</returns>
    public async Task<(IReadOnlyDictionary<Guid, string> Links, WriteResult? Trouble)> ResolveAsync(
        IReadOnlyCollection<Guid> keys, string subject, ServerVersion? last, CancellationToken stop)
    {
        var links = new Dictionary<Guid, string>();
        var open = new List<Guid>();
        foreach (var key in keys.Distinct())
        {
            if (_ids.TryGetValue(key, out var id) || (id = known is null ? null : (await known(key, stop))?.Id) is not null)
            {
                links[key] = $"DetectedIssue/{id}";
            }
            else
            {
                open.Add(key);
            }
        }

        foreach (var chunk in open.Chunk(KeysPerSearch))
        {
            var answer = await SearchAsync(chunk, stop);
            if (answer.IsOpen)
            {
                return (links, WriteResult.From(answer, last));
            }

            if (answer.Resource is Bundle bundle)
            {
                Take(bundle, chunk, subject, links);
            }
        }

        return (links, null);
    }

    private Task<FhirAnswer> SearchAsync(Guid[] keys, CancellationToken stop) =>
        http.SearchAsync("DetectedIssue", [("identifier", string.Join(',', keys.Select(key => $"{WrittenSystems.Finding}|{key:D}"))), ("_count", "100")], stop);

    // Copies entered in error do not count; found twice beside them is not found: a link is never picked among duplicates.
    private void Take(Bundle bundle, Guid[] keys, string subject, Dictionary<Guid, string> links)
    {
        var issues = bundle.Entry.Select(entry => entry.Resource).OfType<DetectedIssue>().Where(issue => issue.Id is { Length: > 0 } && !IsOfAnother(issue, subject)).ToArray();
        foreach (var key in keys)
        {
            var value = key.ToString("D");
            var carrying = issues
                .Where(issue => issue.Identifier.Any(one => one.System == WrittenSystems.Finding && string.Equals(one.Value, value, StringComparison.OrdinalIgnoreCase)))
                .ToArray();
            var ids = carrying.Where(issue => carrying.Length == 1 || !Copies.IsEnteredInError(issue))
                .Select(issue => issue.Id!)
                .Distinct(StringComparer.Ordinal)
                .ToArray();
            if (ids is [var id])
            {
                Remember(key, id);
                links[key] = $"DetectedIssue/{id}";
            }
        }
    }

    private bool IsOfAnother(DetectedIssue issue, string subject) =>
        subject.StartsWith("Patient/", StringComparison.Ordinal) && http.Gate.TryResource(issue.Patient?.Reference, out var place, out _)
        && place is { Type: "Patient", Id: { } id } && subject != "Patient/" + id;
}
