using AirwayGuard.Core.Ports;
using AirwayGuard.Host.Service.Logging;
using AirwayGuard.Worker.Judging;
using Serilog;

namespace AirwayGuard.Host.Service;

/// <summary>Builds the running service from its plan.</summary>
internal static class ServiceHost
{
    /// <summary>The production environment whatever the machine says: the developer's page of errors shows exceptions to whoever asks.</summary>
    public static WebApplicationBuilder Begin(string[] args) => WebApplication.CreateBuilder(
        new WebApplicationOptions { Args = args, ContentRootPath = AppContext.BaseDirectory, EnvironmentName = Environments.Production });

    public static WebApplication Build(WebApplicationBuilder builder, ServicePlan plan, ILedger ledger, BasisInForce basis, ServiceVoice voice)
    {
        builder.WebHost.UseUrls(plan.Listen.AbsoluteUri.TrimEnd('/'));
        builder.WebHost.ConfigureKestrel(static kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = OwnDoors.LargestBody;
        });
        builder.Logging.ClearProviders();
        builder.Services.AddSerilog((_, log) => LogSetup.Configure(log, plan.Options.Log, voice.Errors), preserveStaticLogger: true);
        builder.Services.AddSingleton(voice);
        ServiceComposition.AddService(builder.Services, builder.Configuration, plan, ledger, basis);
        var app = builder.Build();
        ServiceEndpoints.Map(app, plan);
        return app;
    }
}
