using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Suctioning;

/// <summary>Puts a patient's rows together (contract.md §2). Pure: the same timeline gives the same care.</summary>
public static class CareAssembler
{
    /// <param name="judgedAt">The time judged at, UTC ticks.</param>
    /// <param name="care">Cleared, then filled.</param>
    public static void Assemble(in Timeline timeline, IEntityNames names, long judgedAt, Care care)
    {
        care.Clear(timeline.Facts.Length);
        care.JudgedAt = judgedAt;
        ReadDevices(timeline, care);
        AirwayBuilder.Build(timeline, names, care);
        PassBuilder.Build(timeline, names, care);
        SessionBuilder.Build(timeline, care);
        SettingBuilder.Build(timeline, names, care);
        OrderBuilder.Build(timeline, names, care);
    }

    private static void ReadDevices(in Timeline timeline, Care care)
    {
        foreach (ref readonly var fact in timeline.Of(Concepts.DeviceKind))
        {
            if (fact.Value.Kind == ValueKind.Code)
            {
                care.DeviceKinds[fact.About] = fact.Value.Symbol;
            }
        }

        foreach (ref readonly var fact in timeline.Of(Concepts.MetricCategory))
        {
            if (fact.Value.Kind == ValueKind.Code)
            {
                care.MetricCategories[fact.About] = fact.Value.Symbol;
            }
        }

        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.MetricOf)
            {
                care.DeviceOfMetric[link.From] = link.To;
            }
        }
    }
}
