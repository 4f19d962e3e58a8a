using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Findings;

/// <summary>Spells: the run of occurrences of a standing check on one line until a fact clears it or the line ends.</summary>
internal static class SpellBuilder
{
    /// <param name="run">Verdicts of one rule on one line, by time.</param>
    public static void Add(
        in Timeline timeline, Care care, Rule rule, IEntityNames names, VerdictRun run, in JudgeSettings settings, ImmutableArray<DerivedFinding>.Builder into)
    {
        if (rule.Stands == Standing.Once)
        {
            foreach (ref readonly var verdict in run)
            {
                if (verdict.Outcome == Outcome.Breach)
                {
                    var occurrence = OccurrenceBuilder.Build(timeline, care, rule, names, verdict);
                    into.Add(Single(timeline, rule, occurrence, verdict.Measured));
                }
            }

            return;
        }

        var line = run[0].Line;
        var identity = names.IdentityOf(line.Entity);
        var anchor = FindingKeys.Start;
        var occurrences = new List<Occurrence>();
        var allWeak = true;
        var latest = -1;
        var since = long.MinValue;
        foreach (ref readonly var verdict in run)
        {
            if (verdict.Outcome == Outcome.Breach)
            {
                occurrences.Add(OccurrenceBuilder.Build(timeline, care, rule, names, verdict));
                allWeak &= verdict.Measured.BreachIsWeak;
                latest = verdict.Subject.Index;
                since = Math.Max(since, SinceOf(verdict.Subject));
                continue;
            }

            // Only a later fact clears.
            if (verdict.Outcome != Outcome.Pass || verdict.Measured.Clearing == ClearingStrength.Never
                || (occurrences.Count > 0 && (verdict.Subject.From <= since || IsOfAnother(verdict, latest)))
                || (verdict.Measured.Clearing == ClearingStrength.Weak && !allWeak) || (occurrences.Count == 0 && anchor == FindingKeys.Start))
            {
                continue;
            }

            if (occurrences.Count > 0)
            {
                var by = verdict.Measured.Charted >= 0 ? OccurrenceBuilder.Item(timeline, verdict.Measured.Charted) : (EvidenceItem?)null;
                into.Add(Spell(timeline, rule, line, identity, anchor, occurrences, FindingState.Cleared, verdict.Subject.From, false, by));
                occurrences.Clear();
                since = long.MinValue;
                anchor = FindingKeys.Anchor(verdict.Subject.From);
            }

            allWeak = true;
        }

        if (occurrences.Count > 0)
        {
            var ended = LineEnds.Of(timeline, care, line, since, settings);
            into.Add(ended == 0
                ? Spell(timeline, rule, line, identity, anchor, occurrences, FindingState.Open, 0, false, null)
                : Spell(timeline, rule, line, identity, anchor, occurrences, FindingState.Cleared, ended, true, null));
        }
    }

    // What an order is held against may have begun after it was written.
    private static long SinceOf(in Subject subject) => subject.Kind == SubjectKind.Order ? subject.To : subject.From;

    // What fell due ends by its own fact: oxygen back where one session began may still be raised for the one after.
    private static bool IsOfAnother(in Verdict verdict, int latest) => verdict.Subject.Kind == SubjectKind.Due && verdict.Subject.Index != latest;

    private static DerivedFinding Single(in Timeline timeline, Rule rule, Occurrence occurrence, in Measured measured)
    {
        var by = measured.EndedBy >= 0 ? OccurrenceBuilder.Item(timeline, measured.EndedBy) : (EvidenceItem?)null;
        var state = measured.EndedAt > 0 ? FindingState.Cleared : FindingState.Open;
        return new DerivedFinding(rule, timeline.Patient, [occurrence], state, Guid.Empty, default, "", "", measured.EndedAt, false, by);
    }

    private static DerivedFinding Spell(
        in Timeline timeline, Rule rule, Line line, string identity, string anchor, List<Occurrence> occurrences, FindingState state, long endedAt, bool lineEnded,
        EvidenceItem? by) =>
        new(rule, timeline.Patient, [.. occurrences], state, FindingKeys.Flag(rule.Id, identity, anchor), line.Entity, identity, anchor, endedAt, lineEnded, by)
        {
            Place = PlaceOf(timeline),
        };

    // A device's Flag stands on the place it is at, last told.
    private static Entity PlaceOf(in Timeline timeline)
    {
        var (device, place, told) = (timeline.Patient, default(Entity), default(Position));
        if (device.Kind == EntityKind.Place)
        {
            return device;
        }

        foreach (ref readonly var link in timeline.Links)
        {
            if (device.Kind == EntityKind.Device && link.Kind == LinkKind.StandsAt && link.From == device && (place.IsNone || link.Id.Arrival > told))
            {
                (place, told) = (link.To, link.Id.Arrival);
            }
        }

        return place;
    }
}
