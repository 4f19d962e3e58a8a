using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Suctioning;

/// <summary>Rows of a patient by instant, grouping key and panel: which rows stand in one column of the chart.</summary>
internal sealed class ColumnIndex
{
    private readonly FactChains<long> _byInstant = new();
    private readonly FactChains<Entity> _byGroup = new();
    private readonly FactChains<Entity> _byPanel = new();
    private readonly FactChains<Entity> _byRow = new();

    /// <param name="panels">The panel each row is a member of.</param>
    public void Fill(in Timeline timeline, Dictionary<Entity, Entity> panels)
    {
        var facts = timeline.Facts;
        _byInstant.Clear(facts.Length);
        _byGroup.Clear(facts.Length);
        _byPanel.Clear(facts.Length);
        _byRow.Clear(facts.Length);
        for (var i = facts.Length - 1; i >= 0; i--)
        {
            ref readonly var fact = ref facts[i];
            if (fact.About != timeline.Patient || fact.Row.Kind != EntityKind.Row || fact.Has(FactMarks.Timeless))
            {
                continue;
            }

            _byInstant.Prepend(fact.EffectiveFrom, i);
            _byRow.Prepend(fact.Row, i);
            if (!fact.Group.IsNone)
            {
                _byGroup.Prepend(fact.Group, i);
            }

            if (panels.TryGetValue(fact.Row, out var panel))
            {
                _byPanel.Prepend(panel, i);
            }
        }
    }

    /// <summary>Indexes of facts that share an instant, row, key or panel with a fact; some more than once.</summary>
    public void Beside(in Fact fact, Dictionary<Entity, Entity> panels, List<int> beside)
    {
        beside.Clear();
        _byInstant.AddTo(beside, fact.EffectiveFrom);
        _byRow.AddTo(beside, fact.Row);
        _byPanel.AddTo(beside, fact.Row);
        if (!fact.Group.IsNone)
        {
            _byGroup.AddTo(beside, fact.Group);
        }

        if (panels.TryGetValue(fact.Row, out var panel))
        {
            _byPanel.AddTo(beside, panel);
            _byRow.AddTo(beside, panel);
        }
    }
}
