using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Suctioning;

/// <summary>How long a pass lasted and until when windows after it run.</summary>
internal static class PassTimes
{
    /// <summary>The longest pass-duration charted among the pass's rows, seconds, and its fact's index.</summary>
    public static bool TryCharted(in Timeline timeline, Care care, in PassSpan pass, out decimal seconds, out int fact)
    {
        (seconds, fact) = (-1m, -1);
        foreach (var index in care.MembersOf(pass))
        {
            ref readonly var candidate = ref timeline.Facts[index];
            if (candidate.Concept == Concepts.PassDuration && candidate.Value.IsNumber
                && Durations.TrySeconds(candidate.Value.Amount, candidate.Value.Unit, out var charted) && charted > seconds)
            {
                (seconds, fact) = (charted, index);
            }
        }

        return fact >= 0;
    }

    /// <summary>A duration may hold any number; what follows a pass is not looked for later than this.</summary>
    private const decimal LongestSeconds = 86_400m;

    /// <summary>From when what follows a pass is counted: its end, else its start plus its charted duration, else its start.</summary>
    public static long After(in Timeline timeline, Care care, in PassSpan pass) =>
        pass.HasEnd ? pass.To
        : TryCharted(timeline, care, pass, out var seconds, out _) ? pass.From + (long)(Math.Min(seconds, LongestSeconds) * TimeSpan.TicksPerSecond)
        : pass.From;

    /// <summary>End − start in seconds; only for a pass with an end.</summary>
    public static decimal SpanSeconds(in PassSpan pass) => (decimal)(pass.To - pass.From) / TimeSpan.TicksPerSecond;
}
