using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Judging;

/// <summary>
/// Charted reasons that let a check pass: in the same pass or session, on the order, or charted within 24 hours after. Thick
/// secretions charted there count as the reason of that name.
/// </summary>
internal static class Reasons
{
    /// <summary>A reason charted this long after still ends the finding.</summary>
    private const long ChartedLater = 24 * TimeSpan.TicksPerHour;

    /// <returns>Index of the fact that gives the reason with the subject itself or its order; −1 for none.</returns>
    public static int With(string reason, in Subject subject, in Timeline timeline, Care care)
    {
        if (subject.Kind == SubjectKind.Order)
        {
            return OnOrder(reason, timeline, care, care.Orders[subject.Index]);
        }

        var pass = PassOf(subject, care);
        var (session, from, to) = SpanOf(subject, care, pass);
        foreach (var (concept, answer) in Sources(reason))
        {
            var found = SessionAnswers.First(concept, answer, session, from, to, timeline, care);
            if (found >= 0)
            {
                return found;
            }
        }

        return pass < 0 ? -1 : OnOrderOf(reason, timeline, care, pass);
    }

    /// <returns>Index of the first fact that gives the reason within 24 hours after the subject; −1 for none.</returns>
    public static int After(string reason, in Subject subject, in Timeline timeline, Care care)
    {
        var (_, _, to) = SpanOf(subject, care, PassOf(subject, care));
        var best = -1;
        foreach (var (concept, answer) in Sources(reason))
        {
            var found = SessionAnswers.First(concept, answer, -1, to + 1, to + ChartedLater, timeline, care);
            best = found >= 0 && (best < 0 || timeline.Facts[found].EffectiveFrom < timeline.Facts[best].EffectiveFrom) ? found : best;
        }

        return best;
    }

    /// <summary>Where a reason may be charted, and as which answer.</summary>
    public static (Concept Concept, int Answer)[] Sources(string reason)
    {
        var answer = Answers.Of(reason);
        return answer == Answers.ThickSecretions
            ? [(Concepts.AllowanceReason, answer), (Concepts.SecretionConsistency, Answers.Thick)]
            : [(Concepts.AllowanceReason, answer)];
    }

    private static int PassOf(in Subject subject, Care care) => subject.Kind switch
    {
        SubjectKind.Pass => subject.Index,
        SubjectKind.Session => care.PassesBySession[care.Sessions[subject.Index].FirstPass],
        SubjectKind.Setting => care.Settings[subject.Index].Pass,
        _ => -1,
    };

    private static (int Session, long From, long To) SpanOf(in Subject subject, Care care, int pass)
    {
        if (pass < 0)
        {
            return (-1, subject.From, subject.To);
        }

        ref readonly var session = ref care.Sessions[care.Passes[pass].Session];
        return (care.Passes[pass].Session, session.From, Math.Max(session.To, session.From));
    }

    // Also on an order that was carried out and has ended since: its reason was there when the pass was made.
    private static int OnOrderOf(string reason, in Timeline timeline, Care care, int pass)
    {
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind != LinkKind.BasedOn || (link.From != care.Passes[pass].Anchor && link.From != care.Passes[pass].Parent) || !IsMeant(link.To, timeline))
            {
                continue;
            }

            foreach (var (concept, answer) in Sources(reason))
            {
                var facts = timeline.Of(concept);
                for (var i = 0; i < facts.Length; i++)
                {
                    if (facts[i].Value.Kind == ValueKind.Code && facts[i].Value.Symbol == answer && IsPart(facts[i].About, link.To, timeline))
                    {
                        return timeline.FirstOf(concept) + i;
                    }
                }
            }
        }

        return -1;
    }

    // The order itself, or a request for equipment that is tied to it.
    private static bool IsPart(Entity request, Entity order, in Timeline timeline)
    {
        if (request == order)
        {
            return true;
        }

        foreach (ref readonly var link in timeline.Links)
        {
            if (link.From == request && (link.Kind is LinkKind.BasedOn or LinkKind.GroupedBy)
                && (link.Kind == LinkKind.BasedOn ? link.To == order : IsGroupedBy(order, link.To, timeline)) && IsMeant(request, timeline))
            {
                return true;
            }
        }

        return false;
    }

    private static bool IsGroupedBy(Entity order, Entity group, in Timeline timeline)
    {
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.GroupedBy && link.From == order && link.To == group)
            {
                return true;
            }
        }

        return false;
    }

    // A draft or proposal ordered nothing, so that what it gives as a reason allows nothing.
    private static bool IsMeant(Entity order, in Timeline timeline)
    {
        foreach (ref readonly var status in timeline.Of(Concepts.OrderStatus))
        {
            if (status.About == order && status.Value.Symbol == Answers.Draft)
            {
                return false;
            }
        }

        foreach (ref readonly var intent in timeline.Of(Concepts.OrderIntent))
        {
            if (intent.About == order)
            {
                return intent.Value.Symbol != Answers.Proposal;
            }
        }

        return false;
    }

    private static int OnOrder(string reason, in Timeline timeline, Care care, in OrderSpan order)
    {
        foreach (var index in care.FactsOf(order))
        {
            var fact = timeline.Facts[index];
            if (fact.Value.Kind == ValueKind.Code && Array.Exists(Sources(reason), source => source.Concept == fact.Concept && source.Answer == fact.Value.Symbol))
            {
                return index;
            }
        }

        return -1;
    }
}
