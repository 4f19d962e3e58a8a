using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Estimates;

/// <summary>
/// The estimate that goes with a breach of a pass, or of a vacuum that belongs to one, where vacuum or fit is what breached. Everything it
/// takes must be charted, exact and beyond doubt, with open suction charted for that pass; else there is none.
/// </summary>
internal static class PassEstimates
{
    private static readonly int Open = Answers.Of("open"), Closed = Answers.Of("closed");

    /// <returns>Null for a finding that it does not explain, and where anything it takes is missing or doubtful.</returns>
    public static PressureEstimate? Of(in Timeline timeline, Care care, Rule rule, in Verdict verdict)
    {
        var isOfVacuum = rule.Criteria[0].Measure == VacuumPressure.Measure;
        if (!isOfVacuum && rule.Criteria[0].Measure != CatheterToTubeRatio.Measure)
        {
            return null;
        }

        var pass = verdict.Subject.Kind switch
        {
            SubjectKind.Pass => verdict.Subject.Index,
            SubjectKind.Setting => care.Settings[verdict.Subject.Index].Pass,
            _ => -1,
        };
        if (pass < 0 || care.Passes[pass].UseUnknown || !IsOpen(timeline, care, pass))
        {
            return null;
        }

        var subject = Subjects.At(timeline, care, SubjectKind.Pass, pass);
        var vacuum = isOfVacuum ? PassVacuum.OfSetting(timeline, care, verdict.Subject.Index, verdict.Measured.Charted) : PassVacuum.OfPass(timeline, care, subject);
        var catheter = Catheter(timeline, care, subject);
        var tube = Tube(timeline, care, subject.From);
        return vacuum < 0 || catheter < 0 || tube <= 0m
            ? null
            : TrachealPressure.Of(timeline.Facts[catheter].Value.Magnitude, tube, timeline.Facts[vacuum].Value.Amount, timeline.Facts[vacuum].Value.Unit);
    }

    // The bench was open to the room: neither a closed system nor a ventilator that stayed connected, by whatever is charted of the pass.
    private static bool IsOpen(in Timeline timeline, Care care, int pass)
    {
        foreach (var member in care.MembersOf(care.Passes[pass]))
        {
            if (timeline.Facts[member].Concept == Concepts.VentilatorDisconnected && timeline.Facts[member].Value.Kind == ValueKind.No)
            {
                return false;
            }
        }

        var system = HeldInSession.Of(Concepts.SuctionSystem, pass, timeline, care, Closed);
        return system >= 0 && timeline.Facts[system].Value.Symbol == Open && !SuctionSystem.UsesClosedCatheter(timeline, care, care.Passes[pass].Anchor);
    }

    private static int Catheter(in Timeline timeline, Care care, in Subject pass)
    {
        var catheter = CatheterInUse.At(timeline, care, pass);
        if (catheter < 0 || timeline.Facts[catheter].Value is not { Unit: Unit.French, Comparator: Comparator.Exactly })
        {
            return -1;
        }

        // Of two sizes the larger is judged; for an estimate one of them is in doubt. So is a size with an unread one behind it.
        var chosen = timeline.Facts[catheter];
        var facts = timeline.Of(Concepts.CatheterSize);
        for (var i = 0; i < facts.Length; i++)
        {
            ref readonly var other = ref facts[i];
            var isBeside = care.PassOf(timeline.FirstOf(Concepts.CatheterSize) + i) == pass.Index
                || (other.About == chosen.About && other.EffectiveFrom == chosen.EffectiveFrom)
                || (!other.Value.IsNumber && other.About == timeline.Patient && other.EffectiveFrom >= chosen.EffectiveFrom && other.EffectiveFrom <= pass.From);
            if (isBeside && !(other.Value.IsNumber && other.Value.Magnitude == chosen.Value.Magnitude && other.Value.Unit == chosen.Value.Unit))
            {
                return -1;
            }
        }

        return catheter;
    }

    // A size of which the map says that it may be another diameter is none for this.
    private static decimal Tube(in Timeline timeline, Care care, long at)
    {
        var found = Measured.Start();
        var millimetres = InnerDiameter.At(timeline, care, care.AirwayAt(at), at, ref found);
        return millimetres <= 0m || timeline.Facts[found.FactAt(0)].Has(FactMarks.Inexact) ? 0m : millimetres;
    }
}
