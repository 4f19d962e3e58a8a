using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Sandbox;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>The people who do something to our Flags and DetectedIssues on the server, and what they left there.</summary>
internal sealed class PersonsHands(SandboxRepository repository)
{
    /// <summary>System of the identifier that a person adds.</summary>
    public const string Note = "urn:example:ward-note";

    private readonly Dictionary<Guid, PersonsMark> _marks = [];

    /// <summary>By the resource's key; of two things done to one resource, the later.</summary>
    public IReadOnlyDictionary<Guid, PersonsMark> Marks => _marks;

    /// <summary>The one that stands for a patient now and that such an act can be done to.</summary>
    public Guid? InForce(ActKind kind, string patient) =>
        Standing(TypeOf(kind)).Select(one => one.Written)
            .Where(one => one.Patient == "Patient/" + patient && IsInForce(one.Status) && one.Check == "vacuum-above-ceiling" && !_marks.ContainsKey(one.Key))
            .OrderBy(one => one.Key)
            .FirstOrDefault()?.Key;

    /// <summary>Does it; false while it is not in force, or where another wrote meanwhile.</summary>
    public bool TryDo(ActKind kind, Guid key)
    {
        var (type, copies) = (TypeOf(kind), Standing(TypeOf(kind)).Where(one => one.Written.Key == key && IsInForce(one.Written.Status)));
        if (copies.OrderBy(one => one.Version.LastUpdated).ThenBy(one => one.Version.Id, StringComparer.Ordinal).FirstOrDefault().Version is not { } version)
        {
            return false;
        }

        if (kind is ActKind.DeleteFlag or ActKind.DeleteIssue)
        {
            if (!Wrote(() => repository.Delete(type, version.Id, new Preconditions(IfMatch: version.ETag))))
            {
                return false;
            }

            _marks[key] = new PersonsMark(kind, type, version.Id, version.VersionId + 1);
            return true;
        }

        var resource = JsonNode.Parse(version.Body.Span)!.AsObject();
        switch (kind)
        {
            case ActKind.CloseFlag:
                resource["status"] = "inactive";
                break;
            case ActKind.MitigateIssue:
                resource["mitigation"] = new JsonArray(new JsonObject { ["action"] = new JsonObject { ["text"] = "Seen" } });
                break;
            default:
                resource["identifier"]!.AsArray().Add(new JsonObject { ["system"] = Note, ["value"] = "1" });
                break;
        }

        if (!Wrote(() => repository.Update(type, version.Id, Encoding.UTF8.GetBytes(resource.ToJsonString()), new Preconditions(IfMatch: version.ETag))))
        {
            return false;
        }

        _marks[key] = new PersonsMark(kind, type, version.Id, version.VersionId + 1);
        return true;
    }

    /// <summary>What stood before a person did something to it; null where none did.</summary>
    public ReadOnlyMemory<byte>? Before(string id) =>
        _marks.Values.FirstOrDefault(mark => mark.Id == id) is { } mark ? repository.Read(mark.Type, id, mark.Version - 1)?.Body : null;

    /// <summary>Every trace of a person's hand that is gone.</summary>
    public IEnumerable<string> Faults()
    {
        foreach (var (key, mark) in _marks.OrderBy(one => one.Key))
        {
            var now = repository.Read(mark.Type, mark.Id)!;
            var isKept = mark.Kind switch
            {
                ActKind.CloseFlag => now.VersionId == mark.Version,
                ActKind.DeleteFlag or ActKind.DeleteIssue => now.IsDeletion && Standing(mark.Type).All(one => one.Written.Key != key || one.Written.Status == "entered-in-error"),
                ActKind.MitigateIssue => !now.IsDeletion && JsonNode.Parse(now.Body.Span)!["mitigation"] is JsonArray { Count: 1 },
                _ => !now.IsDeletion && Encoding.UTF8.GetString(now.Body.Span).Contains(Note, StringComparison.Ordinal),
            };
            if (!isKept)
            {
                yield return $"{mark.Type} {key}: {mark.Kind} by a person is not kept.";
            }
        }
    }

    private static bool Wrote(Func<object?> write)
    {
        try
        {
            write();
            return true;
        }
        catch (SandboxRefusalException refused) when (refused.Fault == SandboxFault.ConditionNotMet)
        {
            return false;
        }
    }

    private static bool IsInForce(string status) => status is "active" or "final" or "amended";

    private static string TypeOf(ActKind kind) => kind is ActKind.CloseFlag or ActKind.EditFlag or ActKind.DeleteFlag ? "Flag" : "DetectedIssue";

    private IEnumerable<(StoredVersion Version, WrittenResource Written)> Standing(string type) =>
        repository.Search(type, "").Select(version => (version, WrittenResource.Read(version.Body.Span)));
}
