using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Findings;

/// <summary>
/// Turns verdicts into findings: occurrences, the spells of standing checks on their lines, and what could not be told. Pure, and
/// the same whether a stay is judged at once or row by row.
/// </summary>
public static class Derivation
{
    /// <param name="ordered">As <see cref="VerdictLog.InOrder"/> gives them.</param>
    public static DerivedFindings Derive(in Timeline timeline, Care care, RuleSet rules, IEntityNames names, VerdictRun ordered, in JudgeSettings settings)
    {
        var findings = ImmutableArray.CreateBuilder<DerivedFinding>();
        var cannotTell = ImmutableArray.CreateBuilder<DerivedCannotTell>();
        var due = ImmutableArray.CreateBuilder<DueVerdict>();
        for (var i = 0; i < ordered.Length;)
        {
            var end = i + 1;
            while (end < ordered.Length && ordered[end].Rule == ordered[i].Rule && ordered[end].Line == ordered[i].Line)
            {
                end++;
            }

            var rule = rules.Rules[ordered[i].Rule];
            var run = ordered.Slice(i, end - i);
            var before = findings.Count;
            SpellBuilder.Add(timeline, care, rule, names, run, settings, findings);
            AddLineEnds(timeline, care, run[0].Line, findings, before, settings, due);
            AddCannotTell(timeline, care, rule, names, run, cannotTell);
            foreach (ref readonly var verdict in run)
            {
                if (verdict.Outcome == Outcome.NotYet || (verdict.Outcome == Outcome.CannotTell && verdict.DueAt > 0))
                {
                    due.Add(new DueVerdict(rule.Id, verdict.DueAt));
                }
            }

            i = end;
        }

        return new DerivedFindings(findings.ToImmutable(), cannotTell.ToImmutable(), due.ToImmutable()) { Orders = OrdersOnFile(timeline, names) };
    }

    private static ImmutableArray<StandingOrder> OrdersOnFile(in Timeline timeline, IEntityNames names)
    {
        var statuses = timeline.Of(Concepts.OrderStatus);
        var orders = ImmutableArray.CreateBuilder<StandingOrder>(statuses.Length);
        foreach (ref readonly var status in statuses)
        {
            orders.Add(new StandingOrder(status.Row, names.IdentityOf(status.About), status.Id.Arrival));
        }

        return orders.MoveToImmutable();
    }

    // What is open on a line that is going to end ends with it, though nothing more is charted.
    private static void AddLineEnds(
        in Timeline timeline, Care care, Line line, ImmutableArray<DerivedFinding>.Builder findings, int from, in JudgeSettings settings,
        ImmutableArray<DueVerdict>.Builder into)
    {
        for (var i = from; i < findings.Count; i++)
        {
            if (findings[i] is { Stands: true, State: FindingState.Open } open && LineEnds.DueAt(timeline, care, line, open.Latest.At, settings) is > 0 and var at)
            {
                into.Add(new DueVerdict(open.Rule.Id, at));
            }
        }
    }

    // Once per line, but each order by itself, also where its finding would stand on the airway.
    private static void AddCannotTell(
        in Timeline timeline, Care care, Rule rule, IEntityNames names, VerdictRun run, ImmutableArray<DerivedCannotTell>.Builder into)
    {
        AddOne(timeline, care, rule, names, run, run[0].Line.Entity, countsOrders: false, into);
        for (var i = 0; i < run.Length; i++)
        {
            if (run[i].Subject.Kind == SubjectKind.Order)
            {
                AddOne(timeline, care, rule, names, run.Slice(i, 1), run[i].Subject.Identity, countsOrders: true, into);
            }
        }
    }

    private static void AddOne(
        in Timeline timeline, Care care, Rule rule, IEntityNames names, VerdictRun run, Entity line, bool countsOrders,
        ImmutableArray<DerivedCannotTell>.Builder into)
    {
        var (count, first, latest) = (0, 0L, 0L);
        List<Missing> missing = [];
        List<Entity> about = [];
        foreach (ref readonly var verdict in run)
        {
            if (verdict.Outcome != Outcome.CannotTell || (verdict.Subject.Kind == SubjectKind.Order) != countsOrders)
            {
                continue;
            }

            first = count == 0 ? verdict.Subject.From : first;
            latest = verdict.Subject.From;
            count++;
            if (!missing.Contains(verdict.Missing))
            {
                missing.Add(verdict.Missing);
            }

            foreach (var anchor in OccurrenceBuilder.AnchorsOf(timeline, care, names, verdict))
            {
                if (!about.Contains(anchor.Row))
                {
                    about.Add(anchor.Row);
                }
            }
        }

        if (count > 0)
        {
            var identity = names.IdentityOf(line);
            into.Add(new DerivedCannotTell(
                FindingKeys.CannotTell(rule.Id, names.IdentityOf(timeline.Patient), identity), rule, timeline.Patient, identity, first, latest, [.. missing], count, [.. about]));
        }
    }
}
