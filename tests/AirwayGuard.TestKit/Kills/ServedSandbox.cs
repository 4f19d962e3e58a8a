using AirwayGuard.Sandbox;
using AirwayGuard.Sandbox.Http;
using AirwayGuard.TestKit.Simulation;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace AirwayGuard.TestKit.Kills;

/// <summary>The hospital's FHIR server over HTTP, on a loopback port of the system's choice. It outlives the service.</summary>
internal sealed class ServedSandbox : IAsyncDisposable
{
    private readonly WebApplication _app;

    private ServedSandbox(WebApplication app, ServerTraffic traffic)
    {
        (_app, Traffic) = (app, traffic);
        Address = new Uri(app.Urls.Single() + "/fhir");
        Contents = new ServerContents(app.Services.GetRequiredService<SandboxRepository>());
    }

    /// <summary>Its base address.</summary>
    public Uri Address { get; }

    public ServerContents Contents { get; }

    /// <summary>What the service asks of it.</summary>
    public ServerTraffic Traffic { get; }

    public static async Task<ServedSandbox> StartAsync(string folder, TimeProvider clock)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        builder.Services.AddSingleton(clock);
        builder.Services.AddFhirSandbox(options => options.Folder = folder);
        var app = builder.Build();
        var traffic = new ServerTraffic();
        app.Use((context, next) =>
        {
            traffic.Note(context.Request);
            return next(context);
        });
        app.MapFhirSandbox("/fhir");
        await app.StartAsync();
        return new ServedSandbox(app, traffic);
    }

    public ValueTask DisposeAsync() => _app.DisposeAsync();
}
