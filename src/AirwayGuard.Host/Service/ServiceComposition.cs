using System.Security.Cryptography;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Anchoring;
using AirwayGuard.Fhir.Client;
using AirwayGuard.Fhir.Intake;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.WriteBack;
using AirwayGuard.Host.Service.CdsHooks;
using AirwayGuard.Host.Service.Metrics;
using AirwayGuard.Sandbox.Http;
using AirwayGuard.Worker.Backlog;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Judging;
using AirwayGuard.Worker.Sending;
using AirwayGuard.Worker.SignOffs;
using Microsoft.Extensions.Options;

namespace AirwayGuard.Host.Service;

/// <summary>Puts the rooms together for the service. The sandbox is one more server: nothing below treats it apart.</summary>
internal static class ServiceComposition
{
    public static void AddService(IServiceCollection services, IConfiguration configuration, ServicePlan plan, ILedger ledger, BasisInForce basis)
    {
        services.AddSingleton(plan);
        services.AddSingleton(basis);
        services.AddSingleton(SystemClock.Instance);
        services.AddSingleton(ledger);
        services.AddSingleton<IArrivalReader>(new FhirArrivalReader(plan.Map));
        services.AddSingleton<IChartedText>(new ChartedText(plan.Map));
        services.AddOptions<IntakeOptions>().Bind(configuration.GetSection(IntakeOptions.Section)).ValidateDataAnnotations().ValidateOnStart();
        services.AddOptions<SendOptions>().Bind(configuration.GetSection(SendOptions.Section)).ValidateDataAnnotations().ValidateOnStart();
        services.AddAirwayGuardFhirClient(options =>
        {
            configuration.GetSection(FhirClientOptions.Section).Bind(options);
            options.BaseUrl = plan.FhirBase;
        });
        services.AddAirwayGuardWriteBack(options => configuration.GetSection(FhirSinkOptions.Section).Bind(options));
        if (plan.IsDemo)
        {
            services.AddFhirSandbox(options => (options.Folder, options.WordsOf) = (Path.Combine(plan.DataFolder, "sandbox"), SandboxCodes.Of));
        }

        AddSteps(services, plan, basis);
        HookComposition.Add(services, plan, basis);
        services.AddSingleton<ServiceState>();
        services.AddSingleton<NoticeRefusals>();
        services.AddSingleton<FolderRights>();
        services.AddSingleton<ServiceMetrics>();
        services.AddSingleton<AuditAnchor>();
        services.AddSingleton(static provider => new AuditAnchorStore(provider.GetRequiredService<FhirHttp>()));
    }

    /// <summary>What carries charting from the server to findings and back, besides the doors.</summary>
    public static void AddRunner(IServiceCollection services)
    {
        services.AddHostedService<AnchorBeforeStop>();
        services.AddHostedService<ServiceRunner>();
    }

    private static void AddSteps(IServiceCollection services, ServicePlan plan, BasisInForce basis)
    {
        services.AddSingleton<NoticeBoard>();
        services.AddSingleton<IntakeHealth>();
        services.AddSingleton(provider => new ServerContact(
            provider.GetRequiredService<IntakeHealth>(), provider.GetRequiredService<IOptions<IntakeOptions>>().Value, provider.GetRequiredService<ILogger<ServerContact>>()));
        services.AddSingleton<StepTroubles>();
        services.AddSingleton<LedgerTrust>();
        services.AddSingleton<NotifyDoor>();
        services.AddSingleton<Paces>();
        var queries = SweepQueries.For(plan.Map);
        services.AddSingleton(provider => new BacklogReader(
            provider.GetRequiredService<ILedger>(), [.. queries.Select(query => query.Name)], provider.GetRequiredService<Paces>(), () => basis.Current.Speaks,
            provider.GetRequiredService<IOptions<IntakeOptions>>().Value, provider.GetRequiredService<TimeProvider>(), provider.GetRequiredService<ServerContact>()));
        services.AddSingleton<BacklogStep>();
        services.AddSingleton(provider => new SweepStep(
            provider.GetRequiredService<ILedger>(),
            new FhirArrivalSource(
                ClientOf(provider), provider.GetRequiredService<FhirGate>(), [.. queries, .. SweepQueries.Deletions], provider.GetRequiredService<IOptions<IntakeOptions>>().Value.PageSize,
                provider.GetRequiredService<TimeProvider>()),
            provider.GetRequiredService<IArrivalReader>(), provider.GetRequiredService<NoticeBoard>(), provider.GetRequiredService<IntakeHealth>(),
            provider.GetRequiredService<IOptions<IntakeOptions>>().Value, provider.GetRequiredService<TimeProvider>(),
            provider.GetRequiredService<ILogger<SweepStep>>(), provider.GetRequiredService<Paces>().Reading, provider.GetRequiredService<ServerContact>()));
        services.AddSingleton(static provider => provider.GetRequiredService<SweepStep>().Tally);
        services.AddSingleton(provider => new SubscriptionStep(
            new SubscriptionClient(ClientOf(provider), provider.GetRequiredService<FhirGate>()), provider.GetRequiredService<ILedger>(), queries, provider.GetRequiredService<NotifyDoor>(),
            plan.Options.NotifyAddress ?? plan.Listen, provider.GetRequiredService<IOptions<IntakeOptions>>().Value, NewToken,
            provider.GetRequiredService<NoticeBoard>(), provider.GetRequiredService<IntakeHealth>(), provider.GetRequiredService<TimeProvider>(), provider.GetRequiredService<ILogger<SubscriptionStep>>(),
            provider.GetRequiredService<ServerContact>()));
        services.AddSingleton(provider => new JudgeStep(
            provider.GetRequiredService<ILedger>(), provider.GetRequiredService<IChartedText>(), basis, provider.GetRequiredService<TimeProvider>(),
            TimeSpan.FromMinutes(1), provider.GetRequiredService<ILogger<JudgeStep>>(), [.. queries.Where(static query => query.IsIndispensable).Select(static query => query.Name)]));
        services.AddSingleton(provider => new SignOffStep(
            SignOffMail.In(plan.DataFolder), SignedOffStart.DeskOf(provider.GetRequiredService<ILedger>(), provider.GetRequiredService<TimeProvider>()),
            stop => SignedOffStart.TakeUpAsync(provider.GetRequiredService<ILedger>(), plan, basis, stop), provider.GetRequiredService<TimeProvider>(), provider.GetRequiredService<ILogger<SignOffStep>>()));
        services.AddSingleton(provider => new DueStep(provider.GetRequiredService<ILedger>(), provider.GetRequiredService<TimeProvider>()));
        services.AddSingleton<Unsent>();
        services.AddSingleton(provider => new UnsentStep(
            provider.GetRequiredService<ILedger>(), provider.GetRequiredService<Unsent>(), () => basis.Current.Speaks, provider.GetRequiredService<IntakeHealth>(), provider.GetRequiredService<ServerContact>(),
            provider.GetRequiredService<TimeProvider>(), provider.GetRequiredService<ILogger<UnsentStep>>()));
        services.AddSingleton(provider => new SendStep(
            provider.GetRequiredService<ILedger>(), [.. provider.GetServices<ISink>()], provider.GetRequiredService<IOptions<SendOptions>>().Value,
            provider.GetRequiredService<TimeProvider>(), provider.GetRequiredService<ILogger<SendStep>>(), provider.GetRequiredService<ServerContact>()));
    }

    private static HttpClient ClientOf(IServiceProvider provider) =>
        provider.GetRequiredService<IHttpClientFactory>().CreateClient(FhirClientServices.ClientName);

    private static string NewToken() => Convert.ToBase64String(RandomNumberGenerator.GetBytes(32)).TrimEnd('=').Replace('+', '-').Replace('/', '_');
}
