using System.Text;
using AirwayGuard.Sandbox;
using AirwayGuard.Sandbox.Http;
using AirwayGuard.Sandbox.Subscriptions;
using AirwayGuard.TestKit.Habits;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>The hospital's FHIR server, with the people who chart on it.</summary>
internal sealed class SimulatedServer : IDisposable
{
    private readonly SandboxRepository _repository;
    private readonly SubscriptionDispatcher _dispatcher;

    /// <param name="clock">The server's; its stamps go with it.</param>
    /// <param name="stampsGoBack">Also where it is set back.</param>
    /// <param name="lacksNextLinks">No page says that there is more.</param>
    public SimulatedServer(string folder, ServerClock clock, bool stampsGoBack, bool lacksNextLinks, HttpMessageHandler notices)
    {
        Clock = clock;
        _repository = new SandboxRepository(new SandboxOptions { Folder = folder, StampsGoBack = stampsGoBack, WaitsForDisk = false }, clock);
        _dispatcher = new SubscriptionDispatcher(_repository, notices, clock);
        var sandbox = new SandboxHandler(new SandboxServer(_repository, clock));
        Handler = lacksNextLinks ? new NextLinksAbsent { InnerHandler = sandbox } : sandbox;
        Contents = new ServerContents(_repository);
    }

    public HttpMessageHandler Handler { get; }

    public ServerClock Clock { get; }

    /// <summary>What is there.</summary>
    public ServerContents Contents { get; }

    /// <summary>What people did to our resources.</summary>
    public PersonsHands Hands => Contents.Hands;

    /// <summary>A person charts or deletes a row.</summary>
    /// <param name="stamped">How long before now the server stamped it, but never before the version that it follows.</param>
    public void Chart(ChartingAct act, TimeSpan stamped)
    {
        if (stamped > TimeSpan.Zero && _repository.Read(act.Type, act.Id) is { } before && Clock.GetUtcNow() - before.LastUpdated is var since && since < stamped)
        {
            stamped = since > TimeSpan.Zero ? since : TimeSpan.Zero;
        }

        Clock.Ahead -= stamped;
        if (act.Kind == ActKind.DeleteRow)
        {
            _repository.Delete(act.Type, act.Id);
        }
        else
        {
            _repository.Update(act.Type, act.Id, Encoding.UTF8.GetBytes(act.Json));
        }

        Clock.Ahead += stamped;
    }

    /// <summary>Tries one piece of the server's own work: a notice, or a Subscription to turn.</summary>
    public Task<bool> StepAsync() => _dispatcher.StepAsync();

    public void Dispose()
    {
        _dispatcher.Dispose();
        Handler.Dispose();
        _repository.Dispose();
    }
}
