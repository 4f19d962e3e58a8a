using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Judging;

/// <summary>Whether a rule says anything of a subject: told before a verdict is made, which most pairs of the two never need.</summary>
internal static class Applicability
{
    /// <summary>Nothing that the rule measures is said of the subject, so that it does not apply, whatever else holds.</summary>
    public static bool IsNone(in Timeline timeline, Care care, Rule rule, in Subject subject)
    {
        if (subject.Kind == SubjectKind.Order && care.Orders[subject.Index].OverruledCount > 0)
        {
            return false;
        }

        foreach (var criterion in rule.Criteria)
        {
            if (Judge.AnyLimit(criterion.Limits)?.Comparison == Comparison.Missing)
            {
                return false;
            }

            var measured = Measured.Start();
            criterion.Measure.Function(subject, timeline, care, ref measured);
            if (measured.HasValue || measured.Missing != Missing.Nothing)
            {
                return false;
            }
        }

        return true;
    }
}
