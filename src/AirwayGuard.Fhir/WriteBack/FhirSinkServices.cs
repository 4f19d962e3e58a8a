using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Client;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Options;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>Registers write-back to the FHIR server.</summary>
public static class FhirSinkServices
{
    /// <summary>
    /// Adds <see cref="FhirSink"/> as an <see cref="ISink"/>. Needs <see cref="FhirClientServices.AddAirwayGuardFhirClient"/> and a
    /// <see cref="TimeProvider"/>; takes ids of issues from a registered <see cref="ILedger"/>.
    /// </summary>
    public static IServiceCollection AddAirwayGuardWriteBack(this IServiceCollection services, Action<FhirSinkOptions> configure)
    {
        services.AddOptions<FhirSinkOptions>().Configure(configure).ValidateOnStart();
        services.TryAddEnumerable(ServiceDescriptor.Singleton<IValidateOptions<FhirSinkOptions>, FhirSinkOptionsValidator>());
        services.AddSingleton<ISink>(static provider => new FhirSink(
            provider.GetRequiredService<FhirHttp>(),
            provider.GetRequiredService<IOptions<FhirSinkOptions>>().Value,
            provider.GetRequiredService<TimeProvider>(),
            provider.GetService<ILedger>() is { } ledger ? ledger.LastSentAsync : null));
        return services;
    }
}
