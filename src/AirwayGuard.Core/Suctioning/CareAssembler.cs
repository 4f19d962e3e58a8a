using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Suctioning;

/// <summary>Puts a patient's rows together (docs/meanings.md). Pure: the same timeline gives the same care.</summary>
public static class CareAssembler
{
    private static readonly int Open = Answers.Of("open");

    /// <param name="care">Cleared, then filled.</param>
    public static void Assemble(in Timeline timeline, IEntityNames names, Care care)
    {
        care.Clear(timeline.Facts.Length);
        ReadDevices(timeline, care);
        AirwayBuilder.Build(timeline, names, care);
        PassBuilder.Build(timeline, names, care);
        SessionBuilder.Build(timeline, care);
        SettingBuilder.Build(timeline, names, care);
        OrderBuilder.Build(timeline, names, care);
        FindLooseCatheters(timeline, care);
        FindOutletRows(timeline, care);
        FindCuffRows(timeline, care);
        FindSupportRows(timeline, care);
    }

    // Charted on the patient, or on the Device of the airway in use.
    private static void FindCuffRows(in Timeline timeline, Care care)
    {
        var facts = timeline.Of(Concepts.CuffPressure);
        for (var i = 0; i < facts.Length; i++)
        {
            ref readonly var fact = ref facts[i];
            if (!fact.Has(FactMarks.Timeless) && (fact.Value.IsNumber || fact.Value.Kind == ValueKind.Unreadable)
                && (fact.About == timeline.Patient || (care.AirwayAt(fact.EffectiveFrom) is >= 0 and var airway && care.Airways[airway].Device == fact.About)))
            {
                care.CuffRowList.Add(timeline.FirstOf(Concepts.CuffPressure) + i);
            }
        }
    }

    // An outlet may serve two beds: its readings are judged once, with the outlet itself and with no patient. Charted on a patient they name none.
    private static void FindOutletRows(in Timeline timeline, Care care)
    {
        var facts = timeline.Of(Concepts.FullLineVacuum);
        for (var i = 0; i < facts.Length; i++)
        {
            if (facts[i].About == timeline.Patient && facts[i].About.Kind is EntityKind.Place or EntityKind.Device && facts[i].Value.IsNumber)
            {
                care.OutletRowList.Add(timeline.FirstOf(Concepts.FullLineVacuum) + i);
            }
            else if (facts[i].About.Kind == EntityKind.Patient)
            {
                care.ProblemList.Add((Diagnostics.Codes.FullLineOfPatient, facts[i].Row));
            }
        }
    }

    private static void FindSupportRows(in Timeline timeline, Care care)
    {
        var isOpen = false;
        foreach (ref readonly var system in timeline.Of(Concepts.SuctionSystem))
        {
            isOpen |= system.Value.Kind == ValueKind.Code && system.Value.Symbol == Open;
        }

        if (!isOpen)
        {
            return;
        }

        foreach (var concept in (ReadOnlySpan<Concept>)[Concepts.Fio2, Concepts.Peep])
        {
            var facts = timeline.Of(concept);
            for (var i = 0; i < facts.Length; i++)
            {
                if (facts[i].About == timeline.Patient && facts[i].Value.IsNumber)
                {
                    care.SupportRowList.Add(timeline.FirstOf(concept) + i);
                }
            }
        }
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

    private static void FindLooseCatheters(in Timeline timeline, Care care)
    {
        var facts = timeline.Of(Concepts.CatheterSize);
        for (var i = 0; i < facts.Length; i++)
        {
            var index = timeline.FirstOf(Concepts.CatheterSize) + i;
            if (facts[i].About == timeline.Patient && facts[i].Row.Kind == EntityKind.Row && facts[i].Value.IsNumber && care.PassOf(index) < 0 && !care.IsOfOtherSuction(index))
            {
                care.LooseCatheterList.Add(index);
            }
        }
    }
}
