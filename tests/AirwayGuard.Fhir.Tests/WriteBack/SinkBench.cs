using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Client;
using AirwayGuard.Fhir.WriteBack;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace AirwayGuard.Fhir.Tests.WriteBack;

/// <summary>A sink before a fake server, and the ledger's memory of what was confirmed.</summary>
internal sealed class SinkBench : IDisposable
{
    private readonly HttpClient _client;
    private readonly Dictionary<Guid, ServerVersion> _confirmed = [];
    private FhirSink _sink;

    public SinkBench(FhirSinkOptions? options = null)
    {
        Options = options ?? new FhirSinkOptions();
        _client = new HttpClient(Server);
        _sink = NewSink();
    }

    public FhirServerFake Server { get; } = new();

    public FhirSinkOptions Options { get; }

    public FakeTimeProvider Clock { get; } = new(Some.Noon.AddMinutes(5));

    /// <summary>When the claim on what is sent runs out.</summary>
    public DateTimeOffset Until { get; set; } = DateTimeOffset.MaxValue;

    /// <summary>A sweep met it under its key before any answer to its making.</summary>
    public void Meet(Guid key, string id) => _confirmed[key] = new ServerVersion(id, "");

    /// <summary>Not even what was confirmed is remembered.</summary>
    public void Forget()
    {
        _confirmed.Clear();
        Restart();
    }

    /// <summary>Remembers nothing but what the ledger confirmed.</summary>
    public void Restart()
    {
        _sink.Dispose();
        _sink = NewSink();
    }

    public Task<SinkAnswer> SendAsync(IssueMessage message) => SendAsync(Some.Of(message));

    public Task<SinkAnswer> SendAsync(FlagMessage message) => SendAsync(Some.Of(message));

    public async Task<SinkAnswer> SendAsync(Outgoing outgoing)
    {
        var answer = await _sink.SendAsync(outgoing, _confirmed.GetValueOrDefault(outgoing.Key), Until, TestContext.Current.CancellationToken);
        if (answer is { State: SendState.Confirmed, Server: { } server })
        {
            _confirmed[outgoing.Key] = server;
        }

        return answer;
    }

    public void Dispose()
    {
        _sink.Dispose();
        _client.Dispose();
        Server.Dispose();
    }

    private FhirSink NewSink() => new(new FhirHttp(_client, new FhirGate(new Uri(FhirServerFake.Base), []), Clock), Options, Clock);
}
