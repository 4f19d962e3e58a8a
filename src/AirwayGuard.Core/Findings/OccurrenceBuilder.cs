using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Estimates;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Findings;

/// <summary>Turns one breach into an occurrence while its timeline is at hand.</summary>
internal static class OccurrenceBuilder
{
    public static Occurrence Build(in Timeline timeline, Care care, Rule rule, IEntityNames names, in Verdict verdict)
    {
        var measured = verdict.Measured;
        var identity = names.IdentityOf(verdict.Subject.Identity);
        if (verdict.Subject.Kind == SubjectKind.Due)
        {
            // Time that runs is named by its line and the instant it runs from.
            identity = $"{identity}|{FindingKeys.Anchor(care.DueRuns[verdict.Subject.Index].Since)}";
        }

        var limit = verdict.Limit!;
        var evidence = ImmutableArray.CreateBuilder<EvidenceItem>(measured.Count);
        for (var i = 0; i < measured.Count; i++)
        {
            evidence.Add(Item(timeline, measured.FactAt(i)));
        }

        var isNumber = measured.HasValue && measured.Code is null;
        return new Occurrence(
            FindingKeys.Issue(rule.Id, identity), identity, AnchorsOf(timeline, care, names, verdict), verdict.Subject.From, verdict.Band, verdict.Severity,
            isNumber ? LimitCheck.InUnitOf(measured, limit) : measured.ShowsAmount ? measured.Amount : null,
            measured.ShowsAmount ? measured.Unit : isNumber && measured.UnitIsMissing ? Unit.None : limit.Unit,
            measured.Code, limit,
            measured.Charted >= 0 ? Item(timeline, measured.Charted) : null,
            evidence.ToImmutable(), measured.Circumstance >= 0 ? Item(timeline, measured.Circumstance) : null, measured.Withheld && rule.WithheldBy.Length > 0, rule.Tighten.Length > 0,
            EncounterOf(timeline, care, verdict))
        {
            Kind = verdict.Subject.Kind,
            IsSuperseded = verdict.Subject.IsSuperseded,
            Comparator = isNumber ? measured.Comparator : Comparator.Exactly,
            AllowsUpTo = measured.AllowsUpTo,
            IsConverted = isNumber && measured.Unit != limit.Unit && Units.IsPressure(measured.Unit) && Units.IsPressure(limit.Unit),
            Airway = AirwayOf(care, verdict) is >= 0 and var airway ? names.IdentityOf(care.Airways[airway].Identity) : "",
            Estimate = PassEstimates.Of(timeline, care, rule, verdict),
        };
    }

    private static int AirwayOf(Care care, in Verdict verdict) =>
        verdict.Subject.Kind == SubjectKind.Order && verdict.Line.Kind == Suctioning.LineKind.Airway ? verdict.Subject.Airway : care.AirwayAt(verdict.Subject.From);

    private static Entity EncounterOf(in Timeline timeline, Care care, in Verdict verdict)
    {
        if (verdict.Subject.Kind == SubjectKind.Pass)
        {
            return care.Passes[verdict.Subject.Index].Encounter;
        }

        for (var i = 0; i < verdict.Measured.Count; i++)
        {
            ref readonly var fact = ref timeline.Facts[verdict.Measured.FactAt(i)];
            if (!fact.Encounter.IsNone)
            {
                return fact.Encounter;
            }
        }

        return default;
    }

    public static EvidenceItem Item(in Timeline timeline, int fact) => new(timeline.Facts[fact].Id, timeline.Facts[fact].Row);

    /// <summary>What the subject was made from, by time then id: a pass's Procedure or row, a session's passes, the row judged, the order.</summary>
    public static ImmutableArray<SubjectAnchor> AnchorsOf(in Timeline timeline, Care care, IEntityNames names, in Verdict verdict)
    {
        switch (verdict.Subject.Kind)
        {
            case SubjectKind.Pass:
                ref readonly var pass = ref care.Passes[verdict.Subject.Index];
                return [new SubjectAnchor(pass.Anchor, pass.From)];
            case SubjectKind.Session:
                ref readonly var session = ref care.Sessions[verdict.Subject.Index];
                var anchors = new List<SubjectAnchor>();
                foreach (var index in care.PassesOf(session))
                {
                    anchors.Add(new SubjectAnchor(care.Passes[index].Anchor, care.Passes[index].From));
                }

                return [.. anchors.OrderBy(anchor => anchor.At).ThenBy(anchor => names.NameOf(anchor.Row), StringComparer.Ordinal)];
            case SubjectKind.Due when care.DueRuns[verdict.Subject.Index].Fact is >= 0 and var fact:
                return [new SubjectAnchor(timeline.Facts[fact].Row, timeline.Facts[fact].EffectiveFrom)];
            case SubjectKind.Setting when verdict.Measured.Charted >= 0:
                return [new SubjectAnchor(timeline.Facts[verdict.Measured.Charted].Row, verdict.Subject.From)];
            default:
                return [new SubjectAnchor(verdict.Subject.Identity, verdict.Subject.From)];
        }
    }
}
