using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Hand technique of a pass with an open system, during an inpatient or emergency encounter. Of both charted with one pass clean counts.</summary>
public static class HandTechniqueInHospital
{
    private static readonly int Elsewhere = Answers.Of("elsewhere"), Clean = Answers.Of("clean");

    public static readonly Measure Measure = new(
        "hand-technique-in-hospital", Dimension.Code, Unit.None, [SubjectKind.Pass],
        [Concepts.HandTechnique, Concepts.SuctionSystem, Concepts.EncounterClass],
        TimeSpan.Zero, TimeSpan.Zero, ["clean", "sterile"], MayBeMissing: false,
        "sterile or clean, for a pass with an open system in an inpatient or emergency encounter",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var technique = HeldInSession.Of(Concepts.HandTechnique, subject.Index, timeline, care, Clean);
        if (technique < 0)
        {
            return;
        }

        result.Uses(technique);
        result.Charted = technique;
        var isClosed = SuctionSystem.IsClosed(subject, timeline, care, ref result);
        var stay = ClassOf(timeline, care.Passes[subject.Index]);
        if (isClosed == true || stay == Elsewhere)
        {
            return;
        }

        result.Set(Answers.Code(timeline.Facts[technique].Value.Symbol));
        result.BreachIs = isClosed is null ? Missing.SuctionSystem : stay < 0 ? Missing.EncounterClass : Missing.Nothing;
    }

    // The encounter that the pass names; else the one that is running, where they are all of one kind.
    private static int ClassOf(in Timeline timeline, in PassSpan pass)
    {
        var found = -1;
        foreach (ref readonly var fact in timeline.Of(Concepts.EncounterClass))
        {
            if (fact.Value.Kind != ValueKind.Code
                || (pass.Encounter.IsNone ? !IsRunning(timeline, fact, pass.From) : fact.About != pass.Encounter))
            {
                continue;
            }

            if (found >= 0 && (found == Elsewhere) != (fact.Value.Symbol == Elsewhere))
            {
                return -1;
            }

            found = fact.Value.Symbol;
        }

        return found;
    }

    private static bool IsRunning(in Timeline timeline, in Fact stay, long at)
    {
        if (stay.EffectiveFrom > at || stay.EffectiveTo <= at)
        {
            return false;
        }

        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.EncounterOf && link.From == stay.About)
            {
                return link.To == timeline.Patient;
            }
        }

        return false;
    }
}
