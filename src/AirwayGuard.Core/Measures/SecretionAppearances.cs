using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>How secretions looked in a session.</summary>
internal static class SecretionAppearances
{
    public const int NotCharted = 0, Clear = 1, Streaked = 2, Frank = 3;

    /// <summary>How many sessions are looked at.</summary>
    public const int Looked = 3;

    /// <summary>The last sessions of the episode with a charted appearance, the judged one first. Notes the judged one's own as charted.</summary>
    /// <returns>False where the judged session has none.</returns>
    public static bool TryLastCharted(in Timeline timeline, Care care, in Subject subject, Span<int> sessions, ref Measured result, out int seen)
    {
        seen = 0;
        if (Worst(timeline, care, subject.Index, out var own) == NotCharted)
        {
            return false;
        }

        result.Charted = own;
        var episode = care.EpisodeAt(subject.From);
        for (var i = subject.Index; i >= 0 && seen < sessions.Length; i--)
        {
            if (!care.Sessions[i].UseUnknown && care.EpisodeAt(care.Sessions[i].From) == episode && Worst(timeline, care, i, out _) != NotCharted)
            {
                sessions[seen++] = i;
            }
        }

        return true;
    }

    /// <summary>The worst appearance charted among the session's rows, and its fact's index.</summary>
    public static int Worst(in Timeline timeline, Care care, int session, out int factIndex)
    {
        var worst = NotCharted;
        factIndex = -1;
        ref readonly var span = ref care.Sessions[session];
        foreach (var pass in care.PassesOf(span))
        {
            foreach (var index in care.MembersOf(care.Passes[pass]))
            {
                ref readonly var fact = ref timeline.Facts[index];
                if (fact.Concept != Concepts.SecretionAppearance || fact.Value.Kind != ValueKind.Code)
                {
                    continue;
                }

                var appearance = fact.Value.Symbol == Answers.FrankBlood ? Frank : fact.Value.Symbol == Answers.BloodStreaked ? Streaked : Clear;
                if (appearance > worst)
                {
                    (worst, factIndex) = (appearance, index);
                }
            }
        }

        return worst;
    }
}
