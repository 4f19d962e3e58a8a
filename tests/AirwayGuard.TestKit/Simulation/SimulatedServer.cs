using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Findings;
using AirwayGuard.Sandbox;
using AirwayGuard.Sandbox.Http;
using AirwayGuard.Sandbox.Subscriptions;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>The hospital's FHIR server, with the people who chart on it.</summary>
internal sealed class SimulatedServer : IDisposable
{
    private readonly SandboxRepository _repository;
    private readonly SubscriptionDispatcher _dispatcher;
    private readonly HashSet<Guid> _closed = [];

    public SimulatedServer(string folder, TimeProvider clock, HttpMessageHandler notices)
    {
        _repository = new SandboxRepository(new SandboxOptions { Folder = folder }, clock);
        _dispatcher = new SubscriptionDispatcher(_repository, notices, clock);
        Handler = new SandboxHandler(new SandboxServer(_repository, clock));
    }

    public HttpMessageHandler Handler { get; }

    /// <summary>Keys of the Flags that a person closed.</summary>
    public IReadOnlySet<Guid> Closed => _closed;

    /// <summary>The versions that Provenances speak of.</summary>
    public IEnumerable<string> ProvenanceTargets =>
        All("Provenance").Select(version => JsonNode.Parse(version.Body.Span)!["target"]?[0]?["reference"]?.GetValue<string>() ?? "");

    public IReadOnlyList<StoredVersion> All(string type) => _repository.Search(type, "");

    public void Chart(ChartingAct act) => _repository.Update(act.Type, act.Id, Encoding.UTF8.GetBytes(act.Json));

    /// <summary>Tries one piece of the server's own work: a notice, or a Subscription to turn.</summary>
    public Task<bool> StepAsync() => _dispatcher.StepAsync();

    /// <summary>Key of a Flag about vacuum that is in force for a patient.</summary>
    public Guid? FlagInForce(string patient) =>
        All("Flag").Select(version => WrittenResource.Read(version.Body.Span))
            .Where(flag => flag.Status == "active" && flag.Patient == "Patient/" + patient)
            .OrderBy(flag => flag.Key)
            .FirstOrDefault()?.Key;

    /// <summary>A person sets a Flag inactive; false while it is not in force.</summary>
    public bool TryClose(Guid key)
    {
        foreach (var version in All("Flag"))
        {
            var written = WrittenResource.Read(version.Body.Span);
            if (written.Key == key && written.Status == "active")
            {
                var flag = JsonNode.Parse(version.Body.Span)!;
                flag["status"] = "inactive";
                _repository.Update("Flag", version.Id, Encoding.UTF8.GetBytes(flag.ToJsonString()));
                _closed.Add(key);
                return true;
            }
        }

        return false;
    }

    public void Dispose()
    {
        _dispatcher.Dispose();
        Handler.Dispose();
        _repository.Dispose();
    }
}
