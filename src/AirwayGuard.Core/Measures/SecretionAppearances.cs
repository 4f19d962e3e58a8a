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

    /// <summary>
    /// The last sessions of the episode with an appearance that can be read, the judged one first. Notes the judged one's own as charted; where
    /// that cannot be read, that it is missing.
    /// </summary>
    /// <returns>False where the judged session has none that can be read.</returns>
    public static bool TryLastCharted(in Timeline timeline, Care care, in Subject subject, Span<int> sessions, ref Measured result, out int seen)
    {
        seen = 0;
        if (Worst(timeline, care, subject.Index, out var own) == NotCharted)
        {
            result.Charted = Unread(timeline, care, subject.Index);
            result.Missing = result.Charted >= 0 ? Missing.SecretionAppearance : Missing.Nothing;
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

    /// <summary>Notes what the count could come to if what cannot be read among the last sessions with any appearance charted were blood.</summary>
    /// <param name="from">The appearance from which on a session counts.</param>
    public static void NoteUnread(in Timeline timeline, Care care, in Subject subject, int from, ref Measured result)
    {
        var (seen, could, unread) = (0, 0, -1);
        var episode = care.EpisodeAt(subject.From);
        for (var i = subject.Index; i >= 0 && seen < Looked; i--)
        {
            if (care.Sessions[i].UseUnknown || care.EpisodeAt(care.Sessions[i].From) != episode)
            {
                continue;
            }

            var worst = Worst(timeline, care, i, out _);
            var open = Unread(timeline, care, i);
            seen += worst != NotCharted || open >= 0 ? 1 : 0;
            could += worst >= from || open >= 0 ? 1 : 0;
            unread = open >= 0 && worst < from ? open : unread;
        }

        if (unread >= 0)
        {
            result.Uses(unread);
            result.Clearing = ClearingStrength.Never;
            (result.Could, result.OverIs) = (could, Missing.SecretionAppearance);
        }
    }

    /// <summary>An appearance charted among the session's rows that cannot be read; −1 for none.</summary>
    public static int Unread(in Timeline timeline, Care care, int session)
    {
        foreach (var pass in care.PassesOf(care.Sessions[session]))
        {
            foreach (var index in care.MembersOf(care.Passes[pass]))
            {
                if (timeline.Facts[index].Concept == Concepts.SecretionAppearance && timeline.Facts[index].Value.Kind == ValueKind.Unreadable)
                {
                    return index;
                }
            }
        }

        return -1;
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
