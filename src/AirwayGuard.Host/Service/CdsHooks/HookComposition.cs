using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.CdsHooks;
using AirwayGuard.Fhir.Client;
using AirwayGuard.Fhir.Intake;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Judging;
using AirwayGuard.Worker.Places;
using AirwayGuard.Worker.Questions;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>Puts together what answers an EHR's questions.</summary>
internal static class HookComposition
{
    public static void Add(IServiceCollection services, ServicePlan plan, BasisInForce basis)
    {
        var options = plan.Hooks;
        var queries = SweepQueries.For(plan.Map);
        var policy = new PolicyLabel(options.PolicyName, options.PolicyUrl?.AbsoluteUri);
        services.AddSingleton(options);
        services.AddSingleton<HookCounts>();
        services.AddSingleton(provider => new CallerLimits(options.MostASecond, provider.GetRequiredService<TimeProvider>()));
        services.AddSingleton(provider => new KeySets(options.Clients, KeySetFetch.Handler(), provider.GetRequiredService<TimeProvider>()));
        services.AddSingleton(provider => new TokenCheck(
            options.Clients, TimeSpan.FromSeconds(options.ClockSkewSeconds), provider.GetRequiredService<KeySets>(),
            (token, stop) => provider.GetRequiredService<ILedger>().UseTokenAsync(token, provider.GetRequiredService<TimeProvider>().GetUtcNow(), stop), provider.GetRequiredService<TimeProvider>()));
        services.AddSingleton<HookCallers>();
        services.AddSingleton(static provider => new AnswerBook(provider.GetRequiredService<ILedger>()));
        services.AddSingleton(static provider => new HookFetch(new SocketsHttpHandler { AllowAutoRedirect = false, UseCookies = false }, provider.GetRequiredService<FhirGate>()));
        services.AddSingleton(static provider => new QuestionPlaces(new PlacesAbove(provider.GetRequiredService<ILedger>(), provider.GetRequiredService<TimeProvider>())));
        services.AddSingleton(provider => new SweptUpTo(
            provider.GetRequiredService<ILedger>(), [.. queries.Where(static query => query.IsIndispensable).Select(static query => query.Name)], provider.GetRequiredService<TimeProvider>()));
        services.AddSingleton(provider => new QuestionData(
            provider.GetRequiredService<ILedger>(), provider.GetRequiredService<IArrivalReader>(), plan.Map, provider.GetRequiredService<HookFetch>(),
            type => Pull(provider.GetRequiredService<NoticeBoard>(), queries, type), ServerOf(provider), provider.GetRequiredService<TimeProvider>()));
        services.AddSingleton(provider => new OrderQuestions(
            provider.GetRequiredService<ILedger>(), provider.GetRequiredService<IArrivalReader>(), provider.GetRequiredService<IChartedText>(), basis,
            provider.GetRequiredService<QuestionData>(), provider.GetRequiredService<QuestionPlaces>(), provider.GetRequiredService<SweptUpTo>(), provider.GetRequiredService<AnswerBook>(), policy, ServerOf(provider),
            provider.GetRequiredService<TimeProvider>()));
        services.AddSingleton(provider => new PatientViews(
            provider.GetRequiredService<ILedger>(), basis, provider.GetRequiredService<SweptUpTo>(), provider.GetRequiredService<AnswerBook>(), policy, provider.GetRequiredService<TimeProvider>()));
        services.AddSingleton(provider => new HookDesk(
            provider.GetRequiredService<OrderQuestions>(), provider.GetRequiredService<PatientViews>(), provider.GetRequiredService<HookFetch>(),
            provider.GetRequiredService<ILedger>(), provider.GetRequiredService<AnswerBook>(), basis, plan.Map, provider.GetRequiredService<TimeProvider>()));
        services.AddSingleton<HookDoors>();
    }

    private static void Pull(NoticeBoard board, IReadOnlyList<SweepQuery> queries, string type)
    {
        foreach (var query in queries.Where(query => string.Equals(query.Type, type, StringComparison.Ordinal)))
        {
            board.Pull(query.Name);
        }
    }

    // As the sweep names where its arrivals come from.
    private static string ServerOf(IServiceProvider provider) => provider.GetRequiredService<FhirGate>().BaseAddress.AbsoluteUri;
}
