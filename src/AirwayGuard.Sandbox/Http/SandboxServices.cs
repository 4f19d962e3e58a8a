using AirwayGuard.Sandbox.Subscriptions;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Options;

namespace AirwayGuard.Sandbox.Http;

/// <summary>The sandbox in a host's services.</summary>
public static class SandboxServices
{
    /// <summary>
    /// Adds repository, server, dispatcher and the loop that steps it. A <see cref="TimeProvider"/> must be registered.
    /// Options are checked before the host starts.
    /// </summary>
    public static IServiceCollection AddFhirSandbox(this IServiceCollection services, Action<SandboxOptions> configure)
    {
        services.AddOptions<SandboxOptions>().Configure(configure).ValidateOnStart();
        services.TryAddEnumerable(ServiceDescriptor.Singleton<IValidateOptions<SandboxOptions>, SandboxOptionsValidator>());
        services.TryAddSingleton(provider => new SandboxRepository(
            provider.GetRequiredService<IOptions<SandboxOptions>>().Value, provider.GetRequiredService<TimeProvider>()));
        services.TryAddSingleton<SandboxServer>();
        services.TryAddSingleton(provider => new SubscriptionDispatcher(
            provider.GetRequiredService<SandboxRepository>(), provider.GetRequiredService<NotificationHandler>().Handler, provider.GetRequiredService<TimeProvider>()));
        services.TryAddSingleton<NotificationHandler>();
        services.AddSingleton<IHostedService, SubscriptionLoop>();
        return services;
    }

    // A redirect or a proxy would carry a notification off this machine.
    private sealed class NotificationHandler : IDisposable
    {
        public SocketsHttpHandler Handler { get; } = new() { AllowAutoRedirect = false, UseProxy = false, UseCookies = false };

        public void Dispose() => Handler.Dispose();
    }
}
