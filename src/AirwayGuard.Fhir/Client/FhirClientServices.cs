using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Http.Resilience;
using Microsoft.Extensions.Options;

namespace AirwayGuard.Fhir.Client;

/// <summary>Registers the client of the FHIR server.</summary>
public static class FhirClientServices
{
    /// <summary>Name of the HTTP client in the factory.</summary>
    public const string ClientName = "AirwayGuard.Fhir";

    /// <summary>
    /// Adds <see cref="FhirGate"/> and <see cref="FhirHttp"/>. Needs a registered <see cref="TimeProvider"/>; takes a registered
    /// <see cref="Jitter"/> and <see cref="IAccessToken"/> where there are some. The handler under the wire can be replaced
    /// through the returned builder's <c>ConfigurePrimaryHttpMessageHandler</c>.
    /// </summary>
    public static IHttpClientBuilder AddAirwayGuardFhirClient(this IServiceCollection services, Action<FhirClientOptions> configure)
    {
        services.AddOptions<FhirClientOptions>().Configure(configure).ValidateOnStart();
        services.TryAddEnumerable(ServiceDescriptor.Singleton<IValidateOptions<FhirClientOptions>, FhirClientOptionsValidator>());
        services.TryAddSingleton(static _ => Jitter.Unseeded());
        services.TryAddSingleton(static provider => GateOf(provider.GetRequiredService<IOptions<FhirClientOptions>>().Value));
        services.TryAddSingleton(static provider => new FhirHttp(
            provider.GetRequiredService<IHttpClientFactory>().CreateClient(ClientName), provider.GetRequiredService<FhirGate>(), provider.GetRequiredService<TimeProvider>()));

        var client = services.AddHttpClient(ClientName);
        client.ConfigureHttpClient(static http => http.Timeout = Timeout.InfiniteTimeSpan);

        // The factory's own log lines name addresses, and those name patients.
        client.RemoveAllLoggers();
        client.SetHandlerLifetime(Timeout.InfiniteTimeSpan);

        // Redirects are not followed and cookies not kept: an address is called only if the gate let it.
        client.ConfigurePrimaryHttpMessageHandler(static () => new SocketsHttpHandler
        {
            AllowAutoRedirect = false,
            UseCookies = false,
            PooledConnectionLifetime = TimeSpan.FromMinutes(5),
        });
        client.AddResilienceHandler(ClientName, static (pipeline, context) => FhirResilience.Configure(
            pipeline,
            context.ServiceProvider.GetRequiredService<IOptions<FhirClientOptions>>().Value,
            context.ServiceProvider.GetRequiredService<TimeProvider>(),
            context.ServiceProvider.GetRequiredService<Jitter>()));
        client.AddHttpMessageHandler(static provider =>
            new BufferingHandler(provider.GetRequiredService<IOptions<FhirClientOptions>>().Value.MaxAnswerMegabytes * 1_000_000L));
        client.AddHttpMessageHandler(static provider => new GateHandler(provider.GetRequiredService<FhirGate>(), provider.GetService<IAccessToken>()));
        return client;
    }

    private static FhirGate GateOf(FhirClientOptions options) => new(options.BaseUrl!, options.Aliases);
}
