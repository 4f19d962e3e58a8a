namespace AirwayGuard.Core.Orders;

/// <summary>Settles interval, need and clock: q2h as needed is at need, q2h and as needed is both, q2h or as needed nobody can tell.</summary>
internal static class TimingResolver
{
    /// <summary>What is said of when.</summary>
    /// <param name="Open">Words that leave it open; none where it is clear.</param>
    internal readonly record struct Timing(decimal? Hours, bool? ByClock, bool? AsNeeded, TextSpan? Open);

    public static Timing Settle(Section section, OrderTextWork work)
    {
        var intervals = section.Of(OrderField.Interval).ToList();
        var needs = section.Of(OrderField.AsNeeded).ToList();
        var scheduled = section.Of(OrderField.ByClock).ToList();
        var clock = intervals.Where(interval => interval.Bound != Bound.AtMost).ToList();
        var hours = (clock.Count > 0 ? clock : intervals).Select(interval => interval.High).Where(high => high is not null).DefaultIfEmpty(null).Min();
        bool? needed = needs.Count == 0 ? null : needs.Exists(need => need.Says);
        if (clock.Count == 0)
        {
            bool? byClock = scheduled.Exists(mention => mention.Says) && !scheduled.Exists(mention => !mention.Says) ? true
                : intervals.Count > 0 || needed == true || scheduled.Count > 0 ? false : null;
            return new Timing(hours, byClock, needed, null);
        }

        if (needed != true)
        {
            return new Timing(hours, true, needed, null);
        }

        var relation = clock[0].Bound == Bound.AtLeast ? Term.And : Relation(work, clock[0], needs.First(need => need.Says));
        return relation switch
        {
            Term.And => new Timing(hours, true, true, null),
            Term.Or => new Timing(hours, null, true, TextSpan.Over(clock[0].Span, needs.First(need => need.Says).Span)),
            _ => new Timing(hours, false, true, null),
        };
    }

    // What stands between interval and need, or before the later of them in a sentence of its own.
    private static Term Relation(OrderTextWork work, Mention interval, Mention need)
    {
        var (first, later) = interval.Piece < need.Piece ? (interval, need) : (need, interval);
        var found = Term.Word;
        for (var i = later.Piece; i > first.Piece && i > later.Piece - 40; i--)
        {
            var term = work.Pieces[i].Term;
            if (term is Term.Slash or Term.Or && i >= later.Piece - 1)
            {
                return Term.Or;
            }

            // With as needed in between; q2h routinely, as needed for plugs.
            if (term is Term.Then or Term.Routinely or Term.Scheduled || (term == Term.With && i == later.Piece - 1))
            {
                return Term.And;
            }

            found = term == Term.And && (i >= later.Piece - 2 || i <= EndOf(work, first) + 1) ? Term.And : found;
        }

        // q4h by day, as needed by night: each has its own time.
        var (one, other) = (work.ClauseOf(first.Piece), work.ClauseOf(later.Piece));
        if (one != other && (IsPart(work, one, first) || IsPart(work, other, later)))
        {
            return Term.And;
        }

        if (found == Term.Word && work.Layout.SentenceOf[first.Piece] != work.Layout.SentenceOf[later.Piece] && work.ClauseOf(later.Piece).Has(Term.Suction) && work.Layout.ActsOnAirway[work.Layout.SentenceOf[first.Piece]])
        {
            return Term.And;
        }

        return found;
    }

    private static bool IsPart(OrderTextWork work, Clause clause, Mention mention) =>
        clause.Has(Term.PartOfDay) || (clause.Has(Term.While) && mention.Bound == Bound.Plain) || (clause.Has(Term.If) && clause.Has(Term.Proviso)) || (EndOf(work, mention) + 1 is var next && next < clause.To && work.Pieces[next].Term == Term.Day);

    private static int EndOf(OrderTextWork work, Mention mention)
    {
        var at = mention.Piece;
        while (at + 1 < work.Pieces.Count && work.Pieces[at + 1].Span.End <= mention.Span.End)
        {
            at++;
        }

        return at;
    }
}
