using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Judging;

/// <summary>
/// Whether what a rule makes conditional holds for a subject. A circumstance that is not charted counts as absent; of one that is
/// charted so that it cannot be read nobody can tell.
/// </summary>
internal static class Guards
{
    /// <summary>Whether all hold. Without any nothing holds.</summary>
    /// <param name="open">The circumstance of which nobody can tell, where all others hold; else nothing.</param>
    public static bool Hold(ImmutableArray<Guard> guards, in Subject subject, in Timeline timeline, Care care, out Missing open)
    {
        var ignored = Measured.Start();
        open = Missing.Nothing;
        return guards.Length > 0 && Hold(guards, subject, timeline, care, ref ignored, out open);
    }

    /// <param name="evidence">Told the fact that made it hold.</param>
    /// <inheritdoc cref="Hold(ImmutableArray{Guard}, in Subject, in Timeline, Care, out Missing)"/>
    public static bool Hold(
        ImmutableArray<Guard> guards, in Subject subject, in Timeline timeline, Care care, ref Measured evidence, out Missing open)
    {
        open = Missing.Nothing;
        var circumstance = evidence.Circumstance;
        foreach (var guard in guards)
        {
            var measured = Measured.Start();
            guard.Measure.Function(subject, timeline, care, ref measured);
            if (Circumstances.IsOne(measured.Missing))
            {
                open = measured.Missing;
                continue;
            }

            if (!measured.HasValue || LimitCheck.Check(measured, guard.Limit) != Outcome.Breach)
            {
                open = Missing.Nothing;
                return false;
            }

            circumstance = measured.Count > 0 ? measured.FactAt(0) : circumstance;
        }

        evidence.Circumstance = open == Missing.Nothing ? circumstance : evidence.Circumstance;
        return open == Missing.Nothing;
    }
}
