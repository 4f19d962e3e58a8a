using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Whether anything tells what a session of suction brought: how secretions were, a reaction, or an assessment of the airway, charted
/// with one of its passes or within two hours after the last.
/// </summary>
public static class OutcomeCharted
{
    private const long Within = 2 * TimeSpan.TicksPerHour;

    private static readonly Concept[] Outcomes =
    [
        Concepts.SecretionAppearance, Concepts.SecretionAmount, Concepts.SecretionConsistency, Concepts.SuctionReaction, Concepts.AirwayAssessed,
    ];

    public static readonly Measure Measure = new(
        "outcome-charted", Dimension.YesNo, Unit.None, [SubjectKind.Session],
        [.. Outcomes, Concepts.PassDuration],
        TimeSpan.FromHours(1), TimeSpan.FromHours(3), ["yes"], MayBeMissing: true,
        "secretions, a reaction or an assessment of the airway charted with the session or within two hours after its last pass",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var unread = -1;
        ref readonly var session = ref care.Sessions[subject.Index];
        var end = session.To;
        foreach (var pass in care.PassesOf(session))
        {
            end = Math.Max(end, PassTimes.After(timeline, care, care.Passes[pass]));
            foreach (var index in care.MembersOf(care.Passes[pass]))
            {
                if (!Outcomes.AsSpan().Contains(timeline.Facts[index].Concept))
                {
                    continue;
                }

                if (Tells(timeline.Facts[index]))
                {
                    Say(index, ref result);
                    return;
                }

                unread = timeline.Facts[index].Value.Kind == ValueKind.Unreadable ? index : unread;
            }
        }

        foreach (var concept in Outcomes)
        {
            var facts = timeline.Of(concept);
            for (var i = Timeline.FirstAfter(facts, end - 1); i < facts.Length && facts[i].EffectiveFrom <= end + Within; i++)
            {
                if (facts[i].About != timeline.Patient || care.MayBeOfOtherSuction(timeline.FirstOf(concept) + i))
                {
                    continue;
                }

                if (Tells(facts[i]))
                {
                    Say(timeline.FirstOf(concept) + i, ref result);
                    return;
                }

                unread = facts[i].Value.Kind == ValueKind.Unreadable ? timeline.FirstOf(concept) + i : unread;
            }
        }

        // It is still missing; what was charted in its place is shown.
        result.Charted = unread;
    }

    private static bool Tells(in Fact fact) => fact.Value.Kind == (fact.Concept == Concepts.AirwayAssessed ? ValueKind.Yes : ValueKind.Code);

    private static void Say(int fact, ref Measured result)
    {
        result.Uses(fact);
        result.Set("yes");
    }
}
