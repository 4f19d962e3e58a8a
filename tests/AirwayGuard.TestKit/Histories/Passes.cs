namespace AirwayGuard.TestKit.Histories;

/// <summary>One pass with the rows that joined it.</summary>
internal sealed class Pass(string anchor, DateTimeOffset start, DateTimeOffset? end, string? stay)
{
    private IReadOnlyList<Item>? _items;

    public string Anchor => anchor;

    public DateTimeOffset Start => start;

    public DateTimeOffset? End => end;

    public string? Stay => stay;

    public SuctionAct? Act { get; init; }

    public List<ChartRow> Rows { get; } = [];

    public IEnumerable<Item> Items(KnownCharting known) => _items ??= [.. known.Items.Where(i => Rows.Contains(i.Row))];

    public IEnumerable<Item> Of(KnownCharting known, string concept) => Items(known).Where(i => i.Concept == concept);

    /// <summary>From when windows after a pass run: its end, else its start plus the duration charted, else its start.</summary>
    public DateTimeOffset Over(KnownCharting known) =>
        End ?? (Of(known, "pass-duration").Max(Checks.Seconds) is { } seconds ? Start.AddSeconds((double)seconds) : Start);
}

/// <summary>How rows become passes and sessions (docs/meanings.md).</summary>
internal sealed class Passes
{
    private readonly KnownCharting _known;
    private readonly List<ChartRow> _free;
    private readonly List<Pass> _all = [];

    public Passes(KnownCharting known)
    {
        _known = known;
        _free = [.. known.Rows];
        FromActs();
        FromPassRows();
        FromLooseRows();
        All = [.. _all.OrderBy(p => p.Start).ThenBy(p => p.Anchor, StringComparer.Ordinal)];
        Sessions = Group();
    }

    public IReadOnlyList<Pass> All { get; }

    /// <summary>Each a run of passes, earliest first.</summary>
    public IReadOnlyList<IReadOnlyList<Pass>> Sessions { get; }

    public Pass? Of(ChartRow row) => All.FirstOrDefault(p => p.Rows.Contains(row));

    // First the Procedures of suctioning.
    private void FromActs()
    {
        var made = _known.Acts.Select(a => new Pass(a.Reference, a.Start, a.End, a.Stay) { Act = a }).ToList();
        Join(made, made.ToDictionary(p => p, _ => new HashSet<string>(StringComparer.Ordinal)));
    }

    // Then rows that say a pass was done; a false says it was not, and two rows at one instant are two passes.
    private void FromPassRows()
    {
        var keys = new Dictionary<Pass, HashSet<string>>();
        foreach (var row in _free.Where(r => r.Concept == "suction-pass" && r.Value is Charted.Nothing or Charted.YesNo { Value: true }).ToList())
        {
            var pass = new Pass(row.Reference, row.At, row.End, row.Stay);
            pass.Rows.Add(row);
            _free.Remove(row);
            keys.Add(pass, row.Key is null ? [] : new(StringComparer.Ordinal) { row.Key });
        }

        Join([.. keys.Keys], keys);
    }

    // Last, of the rows that joined none, those of one column of the chart among which some can only come from a pass.
    private void FromLooseRows()
    {
        var keys = new Dictionary<Pass, HashSet<string>>();
        foreach (var column in _free.GroupBy(r => (r.Stay, r.Key, At: r.Key is null ? r.At.UtcTicks : 0L)).ToList())
        {
            var making = column.Where(r => _known.Items.Any(i => i.Row == r && MakesPass(i))).ToList();
            if (making.Count == 0)
            {
                continue;
            }

            var first = making.OrderBy(r => r.At).ThenBy(r => r.Id, StringComparer.Ordinal).First();
            var pass = new Pass(first.Reference, first.At, first.End, first.Stay);
            pass.Rows.AddRange(column);
            column.ToList().ForEach(r => _free.Remove(r));
            keys.Add(pass, first.Key is null ? [] : new(StringComparer.Ordinal) { first.Key });
        }

        Join([.. keys.Keys], keys);
    }

    private static bool MakesPass(Item item) => item.Concept switch
    {
        "pass-duration" => Checks.Seconds(item) is not null,
        "pass-count" => item.Number is { Unit: null or "{count}" or "1", Amount: >= 1 },
        "insertion-depth" => item.Number is { Unit: "cm" or "mm" },
        "depth-technique" => item.Answer is "shallow" or "deep",
        "hand-technique" => item.Answer is "sterile" or "clean",
        "saline-instilled" => item.YesNo is not null || item.Number is not null,
        "suction-reaction" => item.Answer is "none" or "desaturation" or "bradycardia" or "tachycardia" or "arrhythmia" or "bleeding"
            or "hypotension" or "hypertension" or "bronchospasm",
        "ventilator-disconnected" => item.YesNo is not null,
        _ => false,
    };

    // A row joins one pass: by being part of it, by panel, grouping key or instant, or by lying in its period.
    private void Join(List<Pass> made, Dictionary<Pass, HashSet<string>> keys)
    {
        made = [.. made.OrderBy(p => p.Start).ThenBy(p => p.Anchor, StringComparer.Ordinal)];
        var ways = new Func<ChartRow, Pass, bool>[]
        {
            (row, pass) => row.PartOf is not null && row.PartOf == pass.Act?.Id,
            (row, pass) => row.Key is not null && keys[pass].Contains(row.Key),
            (row, pass) => row.At == pass.Start,
            (row, pass) => pass.End is { } end && row.At >= pass.Start && (row.End ?? row.At) <= end,
            (row, pass) => row.Key is not null && keys[pass].Contains(row.Key),
        };
        foreach (var way in ways)
        {
            foreach (var row in _free.ToList())
            {
                if (made.FirstOrDefault(p => (row.Stay is null || p.Stay is null || row.Stay == p.Stay) && way(row, p)) is { } pass)
                {
                    pass.Rows.Add(row);
                    _free.Remove(row);
                    if (row.Key is not null)
                    {
                        keys[pass].Add(row.Key);
                    }
                }
            }
        }

        _all.AddRange(made);
    }

    // A session goes on while a pass starts at most 5 min after the one before ended (started, where no end is charted), or
    // shares its Procedure.
    private List<IReadOnlyList<Pass>> Group()
    {
        var sessions = All.Select(p => new List<Pass> { p }).ToList();
        for (var i = 0; i < All.Count; i++)
        {
            for (var j = 0; j < i; j++)
            {
                var near = j == i - 1 && All[i].Start - (All[j].End ?? All[j].Start) <= TimeSpan.FromMinutes(5);
                var siblings = All[i].Act?.Parent is { } parent && All[j].Act?.Parent == parent;
                var (mine, other) = (sessions.Single(s => s.Contains(All[i])), sessions.Single(s => s.Contains(All[j])));
                if ((near || siblings) && mine != other)
                {
                    other.AddRange(mine);
                    sessions.Remove(mine);
                }
            }
        }

        return [.. sessions.Select(s => s.OrderBy(p => p.Start).ThenBy(p => p.Anchor, StringComparer.Ordinal).ToList())];
    }
}
