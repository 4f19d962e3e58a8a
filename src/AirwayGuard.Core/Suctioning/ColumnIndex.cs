using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Suctioning;

/// <summary>Rows of a patient by instant, grouping key and panel: which rows stand in one column of the chart.</summary>
internal sealed class ColumnIndex
{
    private readonly Dictionary<long, List<int>> _byInstant = [];
    private readonly Dictionary<Entity, List<int>> _byGroup = [];
    private readonly Dictionary<Entity, List<int>> _byPanel = [];
    private readonly Dictionary<Entity, List<int>> _byRow = [];
    private readonly Dictionary<Entity, Entity> _panels;

    public ColumnIndex(in Timeline timeline, Dictionary<Entity, Entity> panels)
    {
        _panels = panels;
        var facts = timeline.Facts;
        for (var i = 0; i < facts.Length; i++)
        {
            ref readonly var fact = ref facts[i];
            if (fact.About != timeline.Patient || fact.Row.Kind != EntityKind.Row || fact.Has(FactMarks.Timeless))
            {
                continue;
            }

            Add(_byInstant, fact.EffectiveFrom, i);
            Add(_byRow, fact.Row, i);
            if (!fact.Group.IsNone)
            {
                Add(_byGroup, fact.Group, i);
            }

            if (panels.TryGetValue(fact.Row, out var panel))
            {
                Add(_byPanel, panel, i);
            }
        }
    }

    /// <summary>Indexes of facts that share an instant, row, key or panel with a fact.</summary>
    public IEnumerable<int> Beside(Fact fact)
    {
        IEnumerable<int> beside = _byInstant.GetValueOrDefault(fact.EffectiveFrom, []);
        beside = beside.Concat(_byRow.GetValueOrDefault(fact.Row, [])).Concat(_byPanel.GetValueOrDefault(fact.Row, []));
        if (!fact.Group.IsNone)
        {
            beside = beside.Concat(_byGroup.GetValueOrDefault(fact.Group, []));
        }

        return _panels.TryGetValue(fact.Row, out var panel)
            ? beside.Concat(_byPanel.GetValueOrDefault(panel, [])).Concat(_byRow.GetValueOrDefault(panel, []))
            : beside;
    }

    private static void Add<TKey>(Dictionary<TKey, List<int>> index, TKey key, int fact)
        where TKey : notnull
    {
        if (!index.TryGetValue(key, out var list))
        {
            index[key] = list = [];
        }

        list.Add(fact);
    }
}
