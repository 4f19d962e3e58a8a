using AirwayGuard.Core.Charting;
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

    private const string ThickSecretions = "thick-secretions";

    private static readonly Concept[] Sources = [Concepts.AllowanceReason, Concepts.SecretionConsistency];

    /// <returns>Index of the fact that gives the reason with the subject itself or its order; −1 for none.</returns>
    public static int With(string reason, in Subject subject, in Timeline timeline, Care care)
    {
        if (subject.Kind == SubjectKind.Order)
        {
            return OnOrder(reason, timeline, care, care.Orders[subject.Index]);
        }

        var pass = PassOf(subject, care);
        var span = SpanOf(subject, care, pass);
        foreach (var concept in Sources)
        {
            var facts = timeline.Of(concept);
            for (var i = 0; i < facts.Length; i++)
            {
                var index = timeline.FirstOf(concept) + i;
                if (facts[i].About == timeline.Patient && Gives(reason, facts[i])
                    && (IsInSession(care, index, pass) || (facts[i].EffectiveFrom >= span.From && facts[i].EffectiveFrom <= span.To)))
                {
                    return index;
                }
            }
        }

        return pass < 0 ? -1 : OnOrderOf(reason, timeline, care, pass);
    }

    /// <returns>Index of the first fact that gives the reason within 24 hours after the subject; −1 for none.</returns>
    public static int After(string reason, in Subject subject, in Timeline timeline, Care care)
    {
        if (subject.Kind == SubjectKind.Order)
        {
            return -1;
        }

        var span = SpanOf(subject, care, PassOf(subject, care));
        var facts = timeline.Of(Concepts.AllowanceReason);
        for (var i = Timeline.FirstAfter(facts, span.To); i < facts.Length && facts[i].EffectiveFrom <= span.To + ChartedLater; i++)
        {
            if (facts[i].About == timeline.Patient && Gives(reason, facts[i]))
            {
                return timeline.FirstOf(Concepts.AllowanceReason) + i;
            }
        }

        return -1;
    }

    private static int PassOf(in Subject subject, Care care) => subject.Kind switch
    {
        SubjectKind.Pass => subject.Index,
        SubjectKind.Session => care.PassesBySession[care.Sessions[subject.Index].FirstPass],
        SubjectKind.Setting => care.Settings[subject.Index].Pass,
        _ => -1,
    };

    private static (long From, long To) SpanOf(in Subject subject, Care care, int pass)
    {
        if (pass < 0)
        {
            return (subject.From, subject.To);
        }

        ref readonly var session = ref care.Sessions[care.Passes[pass].Session];
        return (session.From, Math.Max(session.To, session.From));
    }

    private static bool IsInSession(Care care, int fact, int pass) =>
        pass >= 0 && care.PassOf(fact) is >= 0 and var own && care.Passes[own].Session == care.Passes[pass].Session;

    private static int OnOrderOf(string reason, in Timeline timeline, Care care, int pass)
    {
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind != LinkKind.BasedOn || (link.From != care.Passes[pass].Anchor && link.From != care.Passes[pass].Parent))
            {
                continue;
            }

            foreach (ref readonly var order in care.Orders)
            {
                if (order.Identity == link.To && OnOrder(reason, timeline, care, order) is >= 0 and var fact)
                {
                    return fact;
                }
            }
        }

        return -1;
    }

    private static int OnOrder(string reason, in Timeline timeline, Care care, in OrderSpan order)
    {
        foreach (var index in care.OrderFacts.Slice(order.FirstFact, order.FactCount))
        {
            if (Gives(reason, timeline.Facts[index]))
            {
                return index;
            }
        }

        return -1;
    }

    private static bool Gives(string reason, in Fact fact) => fact.Value.Kind == ValueKind.Code
        && (fact.Concept == Concepts.AllowanceReason ? string.Equals(Answers.Code(fact.Value.Symbol), reason, StringComparison.Ordinal)
            : fact.Concept == Concepts.SecretionConsistency && reason == ThickSecretions && fact.Value.Symbol == Answers.Thick);
}
