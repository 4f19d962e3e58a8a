using System.Globalization;
using static AirwayGuard.Host.DemoWard.Writing.ResourceJson;

namespace AirwayGuard.Host.DemoWard.Writing;

/// <summary>Says that the whole ward is there, and which: its end and seed stand in the identifier.</summary>
internal static class MarkerJson
{
    public static WardResource Of(WardClock clock, int seed) => Resource(WardPlan.MarkerType, WardPlan.MarkerId, json =>
    {
        json.Identifier("demo-ward", string.Create(CultureInfo.InvariantCulture, $"{clock.Key(WardClock.Minutes)}/{seed}"));
        json.Concept("code", Base + "demo", "ward-loaded", "Demo ward loaded");
        json.WriteString("created", clock.Written(WardClock.Minutes)[..10]);
    });
}
