namespace AirwayGuard.TestKit.Histories;

/// <summary>One airway in use, from its start until before its end.</summary>
internal sealed class AirwaySpan(DateTimeOffset start, DateTimeOffset? stayEnd, string? device, ChartRow? row)
{
    public DateTimeOffset Start => start;

    public DateTimeOffset? StayEnd => stayEnd;

    public string? Device => device;

    /// <summary>The row it is first known by, unless that is a Device in use.</summary>
    public ChartRow? Row => row;

    public DateTimeOffset? End { get; set; }

    public string? Type { get; set; }

    public decimal? Diameter { get; set; }

    public DateTimeOffset DiameterSince { get; set; }

    public string Line => "airway " + start.UtcDateTime.ToString("O");

    public bool Covers(DateTimeOffset at) => start <= at && (End is null || at < End);
}

/// <summary>An episode: unbroken time with some airway.</summary>
internal sealed record Episode(DateTimeOffset Start, DateTimeOffset? End)
{
    public string Line => "episode " + Start.UtcDateTime.ToString("O");
}

/// <summary>Airways in use and their inner diameters, by walking all instants at which something was charted about them.</summary>
internal sealed class Airways
{
    private readonly KnownCharting _known;
    private readonly List<AirwaySpan> _spans = [];

    public Airways(KnownCharting known)
    {
        _known = known;
        Walk();
        Episodes = Join();
    }

    public IReadOnlyList<Episode> Episodes { get; }

    public IEnumerable<AirwaySpan> All => _spans.Where(s => !(s.End <= s.Start));

    public AirwaySpan? InUse(DateTimeOffset at) => _spans.FirstOrDefault(s => s.Covers(at));

    /// <summary>In use at or after a time, by their start: "order → airway in use" is asked of each in its turn, and now of the last.</summary>
    public IReadOnlyList<AirwaySpan> Since(DateTimeOffset at) => [.. All.Where(s => (s.End is null || s.End > at) && s.Start <= _known.Now).OrderBy(s => s.Start)];

    public AirwaySpan OfLine(string line) => _spans.Single(s => s.Line == line && !(s.End <= s.Start));

    public bool IsAirway(string line) => _spans.Any(s => s.Line == line);

    public Episode? EpisodeAt(DateTimeOffset at) => Episodes.FirstOrDefault(e => e.Start <= at && (e.End is null || at < e.End));

    /// <summary>
    /// The inner diameter in use; none where it is not known. "A new value, size or Device starts another" airway: the only size an airway
    /// has is its own for as long as it is in use, whenever it was charted.
    /// </summary>
    /// <param name="onFileThen">Only what was charted by then counts.</param>
    public decimal? InnerDiameter(AirwaySpan airway, DateTimeOffset at, bool onFileThen = false)
    {
        // A charted cannula diameter, or a Device in use, counts as in place until it is charted as false or 0 or its use ends; its
        // diameter is the one in use, and in place without one nobody can tell the ratio.
        bool inPlace = false;
        decimal? cannula = null;
        foreach (var (_, _, set, isSized, diameter) in CannulaEvents(airway, at).OrderBy(e => e.At).ThenBy(e => e.Rank))
        {
            // A mark keeps the diameter of the one in place; another Device brings its own, known or not.
            cannula = !set ? null : isSized ? diameter : inPlace ? cannula : null;
            inPlace = set;
        }

        // None is wider than the tube it lies in.
        return inPlace ? (cannula > airway.Diameter ? null : cannula) : airway.Diameter is { } own && (!onFileThen || airway.DiameterSince <= at) ? own : null;
    }

    // At one instant a false comes last: it outweighs the rest.
    private IEnumerable<(DateTimeOffset At, int Rank, bool Set, bool IsSized, decimal? Diameter)> CannulaEvents(AirwaySpan airway, DateTimeOffset at)
    {
        foreach (var item in _known.Items.Where(i => i.At >= airway.Start && i.At <= at))
        {
            if (item is { Concept: "inner-cannula-in-place", YesNo: { } inPlace })
            {
                yield return (item.At, inPlace ? 1 : 3, inPlace, false, null);
            }
            else if (item.Concept == "inner-cannula-diameter" && Millimetres(item) is { } diameter)
            {
                yield return (item.At, 2, diameter != 0, true, diameter);
            }
        }

        foreach (var use in _known.Uses.Where(u => _known.Thing(u.Thing)?.Kind == "inner-cannula" && u.Start >= airway.Start && u.Start <= at))
        {
            yield return (use.Start, 1, true, true, _known.Thing(use.Thing)!.InnerDiameter);
            if (use.End <= at)
            {
                yield return (use.End.Value, 0, false, true, null);
            }
        }
    }

    // From the period of its use or, without one, from the first row about it; until that use ends, none is charted, another
    // airway begins, or the encounter is over.
    private void Walk()
    {
        var tubes = _known.Uses.Where(u => _known.Thing(u.Thing)?.Kind is "tracheal-tube" or "tracheostomy-tube").ToList();
        var rows = _known.Items.Where(i => i.Concept is "airway-type" && i.Answer is "none" or "tracheal-tube" or "tracheostomy-tube"
            || (i.Concept is "tube-inner-diameter" && Millimetres(i) > 0)).ToList();
        var instants = rows.Select(r => r.At).Concat(tubes.Select(u => u.Start)).Concat(tubes.Select(u => u.End).OfType<DateTimeOffset>()).Distinct().Order();
        AirwaySpan? current = null;
        foreach (var at in instants)
        {
            current = EndWithStay(current, at);
            if (current?.Device is { } device && tubes.Any(u => u.Id == device && u.End == at))
            {
                current = EndNow(current, at);
            }

            var here = rows.Where(r => r.At == at).ToList();
            if (here.Any(r => r.Answer == "none"))
            {
                current = EndNow(current, at);
            }

            foreach (var use in tubes.Where(u => u.Start == at))
            {
                EndNow(current, at);
                var tube = _known.Thing(use.Thing)!;
                current = StartNew(at, _known.StayEnd(null, at), use.Id, null);
                (current.Type, current.Diameter, current.DiameterSince) = (tube.Kind, tube.InnerDiameter, at);
            }

            current = Apply(current, here, at);
        }

        EndWithStay(current, DateTimeOffset.MaxValue);
    }

    // None ends the airway; another kind, size or Device starts another.
    private AirwaySpan? Apply(AirwaySpan? current, List<Item> here, DateTimeOffset at)
    {
        var type = here.Where(r => r.Concept == "airway-type" && r.Answer != "none").Select(r => r.Answer).FirstOrDefault();
        var sized = here.FirstOrDefault(r => r.Concept == "tube-inner-diameter");
        var diameter = sized is null ? null : Millimetres(sized);
        if (type is null && diameter is null)
        {
            return current;
        }

        if (current is null || (type is not null && current.Type is not null && type != current.Type)
            || (diameter is not null && current.Diameter is not null && diameter != current.Diameter))
        {
            EndNow(current, at);
            // A new size alone is a tube of the kind in use.
            var kind = current?.Type;
            current = StartNew(at, _known.StayEnd(here[0].Row.Stay, at), null, here[0].Row);
            current.Type = kind;
        }

        current.Type = type ?? current.Type;
        if (diameter is not null && current.Diameter is null)
        {
            (current.Diameter, current.DiameterSince) = (diameter, at);
        }

        return current;
    }

    private AirwaySpan StartNew(DateTimeOffset at, DateTimeOffset? stayEnd, string? device, ChartRow? row)
    {
        var span = new AirwaySpan(at, stayEnd, device, row);
        _spans.Add(span);
        return span;
    }

    private static AirwaySpan? EndNow(AirwaySpan? current, DateTimeOffset at)
    {
        if (current is not null)
        {
            current.End = at;
        }

        return null;
    }

    private static AirwaySpan? EndWithStay(AirwaySpan? current, DateTimeOffset at) =>
        current?.StayEnd is { } end && end <= at ? EndNow(current, end) : current;

    // Less than an hour without an airway does not end an episode.
    private List<Episode> Join()
    {
        var episodes = new List<Episode>();
        foreach (var span in _spans.Where(s => s.End is null || s.End > s.Start))
        {
            if (episodes.Count > 0 && (episodes[^1].End is not { } end || span.Start - end < TimeSpan.FromHours(1)))
            {
                episodes[^1] = episodes[^1] with { End = span.End };
            }
            else
            {
                episodes.Add(new(span.Start, span.End));
            }
        }

        return episodes;
    }

    private static decimal? Millimetres(Item item) => item.Number switch
    {
        { Unit: "mm" } n => n.Amount,
        { Unit: "cm" } n => n.Amount * 10m,
        _ => null,
    };
}
