namespace AirwayGuard.Core.Orders;

/// <summary>
/// Sentences and clauses of a text, and for each piece what it is about: the act, place or quantity named before it in its clause, else
/// named in its sentence, else the suction spoken of last.
/// </summary>
internal sealed class Layout
{
    private readonly Topic[] _near, _inherited, _suction;
    private readonly bool[] _conditions;
    private readonly List<UInt128> _sentenceTerms = [];

    private Layout(int pieces)
    {
        (_near, _inherited, _suction) = (new Topic[pieces], new Topic[pieces], new Topic[pieces]);
        _conditions = new bool[pieces];
        SentenceOf = new int[pieces];
        ClauseOf = new int[pieces];
    }

    public List<Sentence> Sentences { get; private set; } = [];

    public List<Clause> Clauses { get; private set; } = [];

    /// <summary>By piece; those between clauses have that of the piece before.</summary>
    public int[] SentenceOf { get; }

    public int[] ClauseOf { get; }

    /// <summary>By sentence: it holds an act of suctioning the airway.</summary>
    public List<bool> ActsOnAirway { get; } = [];

    /// <summary>The text speaks of suction of the airway at all, with an act or its gear.</summary>
    public bool SpeaksOfAirway { get; private set; }

    /// <param name="isAirway">The order is known to be one of airway suction, whatever its text names.</param>
    public static Layout Of(List<Piece> pieces, List<Amount> amounts, bool isAirway)
    {
        var layout = new Layout(pieces.Count);
        (layout.Sentences, layout.Clauses) = Splitter.Split(pieces);
        layout.SpeaksOfAirway = isAirway;
        for (var s = 0; s < layout.Sentences.Count; s++)
        {
            var sentence = layout.Sentences[s];
            UInt128 terms = 0;
            for (var c = sentence.First; c < sentence.First + sentence.Count; c++)
            {
                terms |= layout.Clauses[c].Terms;
                for (var i = layout.Clauses[c].From; i < layout.Clauses[c].To; i++)
                {
                    (layout.SentenceOf[i], layout.ClauseOf[i]) = (s, c);
                }
            }

            layout._sentenceTerms.Add(terms);
        }

        Conditions.Mark(pieces, amounts, layout.Clauses, layout._conditions);
        layout.FindTopics(pieces, new Heads(pieces, amounts, layout._conditions, at => layout.SentenceHas(at, Term.Suction)), isAirway);
        return layout;
    }

    public bool SentenceHas(int piece, Term term) => (_sentenceTerms[SentenceOf[piece]] & (UInt128.One << (int)term)) != UInt128.Zero;

    public bool IsCondition(int piece) => _conditions[piece];

    /// <summary>An act, a place or a quantity is named in its clause.</summary>
    public bool IsNamed(int piece) => _near[piece] != Topic.Unknown;

    /// <summary>What an act, a time or a word of need is about.</summary>
    public Topic About(int piece) => _near[piece] != Topic.Unknown ? _near[piece] : _inherited[piece] != Topic.Unknown ? _inherited[piece] : _suction[piece];

    /// <summary>What a vacuum or a size is of: another quantity named in an earlier clause does not reach it.</summary>
    public Topic AboutSize(int piece) => _near[piece] != Topic.Unknown ? _near[piece] : _suction[piece];

    public bool IsOfAirway(int piece) => About(piece) is Topic.Airway or Topic.Tube;

    private void FindTopics(List<Piece> pieces, Heads heads, bool isAirway)
    {
        var spoken = isAirway ? Topic.Airway : Topic.Unknown;
        var firstActed = Topic.Unknown;
        foreach (var sentence in Sentences)
        {
            var (inherited, acts, elsewhere) = (Topic.Unknown, false, false);
            var within = spoken;
            for (var c = sentence.First; c < sentence.First + sentence.Count; c++)
            {
                var clause = Clauses[c];
                var (first, last) = WalkClause(heads, clause, c, inherited, within, ref acts, ref elsewhere);
                if (clause.From > 0 && pieces[clause.From - 1].Term == Term.Opens)
                {
                    // What stands in brackets is said beside.
                    continue;
                }

                inherited = last != Topic.Unknown ? last : inherited;
                within = last is Topic.Airway or Topic.Elsewhere ? last : within;
                firstActed = firstActed == Topic.Unknown && first is Topic.Airway or Topic.Elsewhere ? first : firstActed;
            }

            // What is merely drained elsewhere does not take over; suction elsewhere does.
            spoken = acts ? Topic.Airway : elsewhere ? Topic.Elsewhere : spoken;
            ActsOnAirway.Add(acts);
            SpeaksOfAirway |= acts;
        }

        // Before suction is spoken of, what comes first counts.
        for (var i = 0; i < pieces.Count; i++)
        {
            _suction[i] = _suction[i] == Topic.Unknown ? firstActed : _suction[i];
        }
    }

    private (Topic First, Topic Last) WalkClause(Heads heads, Clause clause, int index, Topic inherited, Topic spoken, ref bool acts, ref bool elsewhere)
    {
        var (first, now) = (Topic.Unknown, Topic.Unknown);
        var begin = clause.From;
        for (var i = clause.From; i < clause.To; i++)
        {
            var topic = heads.TopicAt(i, clause);
            if (topic != Topic.Unknown)
            {
                now = topic;
                acts |= topic == Topic.Airway && heads.IsAct(i);
                SpeaksOfAirway |= topic == Topic.Airway;
                elsewhere |= topic == Topic.Elsewhere && heads.IsAct(i);
                if (first == Topic.Unknown)
                {
                    first = topic;
                    for (var before = begin; before < i; before++)
                    {
                        _near[before] = topic;
                    }
                }
            }

            (_near[i], _inherited[i], _suction[i]) = (now, inherited, spoken);
        }

        return (first, now);
    }
}
