namespace AirwayGuard.Core.Orders;

/// <summary>A text on the table while its mentions are found.</summary>
internal sealed class OrderTextWork
{
    private const decimal FullOxygen = 90m;
    private const int ReachOfUnknown = 6;

    private static readonly Term[] Known =
    [
        Term.Catheter, Term.Vacuum, Term.PressureWord, Term.Regulator, Term.Size, Term.Gear, Term.Closed, Term.Open, Term.Shallow, Term.Deep, Term.Depth, Term.Technique, Term.Needed,
    ];

    private readonly Dictionary<(Term Kind, int Clause), int> _sizes = [];

    public OrderTextWork(string text, bool isAirway)
    {
        var tokens = Tokenizer.Cut(text);
        Pieces = Scanner.Read(tokens);
        Steps = tokens.Count + Pieces.Count;
        Amounts = AmountReader.Read(Pieces);
        Intervals = IntervalReader.Read(Pieces, Amounts);
        Layout = Layout.Of(Pieces, Amounts, isAirway || IsForm());
        FullShares = [.. Amounts.Select(ShareOf).Where(amount => amount.Kind == Term.Percent && amount.High >= FullOxygen).Select(amount => Layout.ClauseOf[amount.NumberAt])];
        (Millilitres, Percents) = (Largest(Term.Millilitre), Largest(Term.Percent));
        foreach (var amount in Amounts.Where(amount => !Layout.IsCondition(amount.NumberAt)))
        {
            _sizes[(amount.Kind, Layout.ClauseOf[amount.NumberAt])] = _sizes.GetValueOrDefault((amount.Kind, Layout.ClauseOf[amount.NumberAt])) + 1;
        }

        IntervalStarts = [.. Intervals.Select(interval => interval.First)];
        foreach (var interval in Intervals)
        {
            for (var i = interval.First; i <= interval.Last; i++)
            {
                Used.Add(i);
            }
        }
    }

    public List<Piece> Pieces { get; }

    public List<Amount> Amounts { get; }

    public List<Interval> Intervals { get; }

    public Layout Layout { get; }

    /// <summary>Clauses that name nearly all of a hundred percent.</summary>
    public HashSet<int> FullShares { get; }

    public HashSet<int> IntervalStarts { get; }

    /// <summary>By clause the largest volume named in it.</summary>
    public Dictionary<int, decimal> Millilitres { get; }

    /// <summary>By clause the largest percentage named in it.</summary>
    public Dictionary<int, decimal> Percents { get; }

    /// <summary>Pieces whose numbers are accounted for.</summary>
    public HashSet<int> Used { get; } = [];

    public List<Mention> Mentions { get; } = [];

    /// <summary>With the piece each stands at.</summary>
    public List<(int Piece, TextSpan Span)> Unread { get; } = [];

    private Dictionary<int, decimal> Largest(Term kind)
    {
        var largest = new Dictionary<int, decimal>();
        foreach (var one in Amounts)
        {
            var amount = kind == Term.Percent ? ShareOf(one) : one;
            var clause = Layout.ClauseOf[amount.NumberAt];
            if (amount.Kind == kind && !amount.IsDoubtful && amount.High > largest.GetValueOrDefault(clause))
            {
                largest[clause] = amount.High;
            }
        }

        return largest;
    }

    // FiO2 1.0 is a fraction, FiO2 to 1.0 too.
    private Amount ShareOf(Amount amount)
    {
        var of = amount.First - 1;
        of -= of > 0 && Pieces[of].Term is Term.To or Term.At or Term.Is ? 1 : 0;
        return amount.Kind == Term.Number && amount.High is >= 0.21m and <= 1m && of >= 0 && Pieces[of] is { Term: Term.Quantity, Value: > 0m }
            ? amount with { Kind = Term.Percent, High = amount.High * 100m }
            : amount;
    }

    // A form that names neither suction nor another place: a vacuum beside a catheter's size is suction.
    private bool IsForm() =>
        Amounts.Exists(amount => amount.Kind == Term.Pressure) && Amounts.Exists(amount => amount.Kind == Term.French)
        && !Pieces.Exists(piece => piece.Term is Term.Elsewhere or Term.Suction or Term.Quantity or Term.Care);

    /// <summary>Suction is only named in what replaces another order, or is replaced.</summary>
    public bool SupersedesSuction =>
        Pieces.Exists(piece => piece is { Term: Term.History, Value: > 0m }) && Pieces.Exists(piece => piece.Term == Term.Suction) && !Pieces.Exists(piece => piece.Term == Term.Elsewhere);

    /// <summary>Pieces looked at so far.</summary>
    public long Steps { get; private set; }

    /// <summary>How many numbers of its kind its clause names.</summary>
    public int SizesOf(Amount amount) => _sizes.GetValueOrDefault((amount.Kind, Layout.ClauseOf[amount.NumberAt]), 1);

    public Clause ClauseOf(int piece) => Layout.Clauses[Layout.ClauseOf[piece]];

    /// <summary>Its clause names nothing that is known, and something that is not: what is said there may be of that.</summary>
    public bool IsOfUnknown(int piece)
    {
        if ((Layout.IsNamed(piece) && Layout.AboutSize(piece) != Topic.Tube) || Before(piece, ReachOfUnknown, Known) >= 0)
        {
            return false;
        }

        // Letters that are a unit behind a number are a word of their own elsewhere: PA 45. What a condition names is its own.
        var unknown = Before(piece, ReachOfUnknown, Term.Word, Term.OtherUnit);
        return unknown >= 0 && Layout.IsCondition(unknown) ? false : unknown >= 0 && Pieces[unknown].Span.Length > 1 && !(Pieces[unknown].Term == Term.OtherUnit && unknown > 0 && Pieces[unknown - 1].Term == Term.Number);
    }

    public TextSpan LeaveUnread(Amount amount)
    {
        Used.Add(amount.NumberAt);
        var (span, next) = (amount.Span, amount.Last + 1);
        for (; next < Pieces.Count && next <= amount.Last + 2 && Pieces[next].Touches && Pieces[next].Term is Term.Word or Term.OtherUnit; next++)
        {
            span = TextSpan.Over(span, Pieces[next].Span);
        }

        var before = amount.NumberAt - 1;
        if (before >= 0 && Pieces[amount.NumberAt].Touches && Pieces[before].Term is Term.Word or Term.OtherUnit)
        {
            span = TextSpan.Over(Pieces[before].Span, span);
        }

        Unread.Add((amount.NumberAt, span));
        return span;
    }

    public void LeaveUnread(int piece) => Unread.Add((piece, Pieces[piece].Span));

    /// <summary>The nearest piece before one, of its clause and within reach, that has one of the terms; −1 for none.</summary>
    public int Before(int piece, int reach, params ReadOnlySpan<Term> terms)
    {
        var from = Math.Max(ClauseOf(piece).From, piece - reach);
        for (var i = piece - 1; i >= from; i--)
        {
            Steps++;
            if (terms.Contains(Pieces[i].Term))
            {
                return i;
            }
        }

        return -1;
    }

    /// <summary>The nearest piece behind one, of its clause and within reach, that has one of the terms; −1 for none.</summary>
    public int Behind(int piece, int reach, params ReadOnlySpan<Term> terms)
    {
        var to = Math.Min(ClauseOf(piece).To, piece + 1 + reach);
        for (var i = piece + 1; i < to; i++)
        {
            Steps++;
            if (terms.Contains(Pieces[i].Term))
            {
                return i;
            }
        }

        return -1;
    }
}
