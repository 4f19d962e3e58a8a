using System.Globalization;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Host.DemoWard;

namespace AirwayGuard.Host.Service;

/// <summary>Fills the demo's sandbox with the ward over HTTP, as any server would be filled, unless it is there.</summary>
internal static class DemoStart
{
    private const int Seed = 1;

    public static async Task<bool> LoadAsync(ServicePlan plan, TimeProvider clock, TextWriter told, CancellationToken stop)
    {
        using var client = new HttpClient { Timeout = TimeSpan.FromMinutes(5) };
        var loader = new WardLoader(client, plan.FhirBase);
        var end = plan.Options.WardEnd ?? clock.GetUtcNow();
        var ward = WardPlan.Build(end, Seed);
        var loading = await loader.LoadAsync(
            ward, (sent, all) => told.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Loading the demo ward: {sent} of {all} resources")), stop);
        if (loading.Outcome == WardOutcome.Loaded)
        {
            loading = await loader.SendAsync(WardPlan.Corrections(end, Seed), static (_, _) => { }, stop);
        }

        if (loading.Outcome is WardOutcome.Loaded or WardOutcome.AlreadyThere)
        {
            return true;
        }

        await told.WriteLineAsync($"{Codes.WardNotLoaded.Id}  {Codes.WardNotLoaded.Title}. {Codes.WardNotLoaded.Advice}");
        return false;
    }
}
