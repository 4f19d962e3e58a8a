using System.Runtime.InteropServices;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Judging;

/// <summary>
/// The verdicts on one patient, as they come and in the order in which findings are derived from them. Keeps its memory from
/// patient to patient; not for concurrent use.
/// </summary>
public sealed class VerdictLog(IEntityNames names) : IVerdictSink, IComparer<int>
{
    private readonly List<Verdict> _verdicts = [];
    private readonly List<int> _order = [];
    private readonly HashSet<(SubjectKind Kind, int Index, int Airway)> _breached = [];

    public void Clear() => _verdicts.Clear();

    public void Accept(in Verdict verdict) => _verdicts.Add(verdict);

    /// <summary>
    /// Withholds the breach of a check where the check its rule names breaches for the same subject: that one says it already. A
    /// silent check withholds nothing, since nobody would hear of either.
    /// </summary>
    public void Withhold(RuleSet rules)
    {
        for (var rule = 0; rule < rules.Rules.Length; rule++)
        {
            var by = LiveRule(rules, rules.Rules[rule].WithheldBy);
            if (by < 0)
            {
                continue;
            }

            _breached.Clear();
            var verdicts = CollectionsMarshal.AsSpan(_verdicts);
            foreach (ref readonly var verdict in verdicts)
            {
                if (verdict.Rule == by && verdict.Outcome == Outcome.Breach)
                {
                    _breached.Add((verdict.Subject.Kind, verdict.Subject.Index, verdict.Subject.Airway));
                }
            }

            foreach (ref var verdict in verdicts)
            {
                if (verdict.Rule == rule && verdict.Outcome == Outcome.Breach && _breached.Contains((verdict.Subject.Kind, verdict.Subject.Index, verdict.Subject.Airway)))
                {
                    verdict = verdict with { Measured = verdict.Measured with { Withheld = true } };
                }
            }
        }
    }

    /// <summary>By rule, line, time and name; of one subject's the breach first. Valid until the next verdict comes.</summary>
    public VerdictRun InOrder()
    {
        CollectionsMarshal.SetCount(_order, _verdicts.Count);
        var order = CollectionsMarshal.AsSpan(_order);
        for (var i = 0; i < order.Length; i++)
        {
            order[i] = i;
        }

        order.Sort(this);
        return new VerdictRun(CollectionsMarshal.AsSpan(_verdicts), order);
    }

    private static int LiveRule(RuleSet rules, string id)
    {
        for (var i = 0; id.Length > 0 && i < rules.Rules.Length; i++)
        {
            if (rules.Rules[i].Id == id && rules.Rules[i].Mode == Mode.Live)
            {
                return i;
            }
        }

        return -1;
    }

    /// <inheritdoc />
    int IComparer<int>.Compare(int left, int right)
    {
        var verdicts = CollectionsMarshal.AsSpan(_verdicts);
        ref readonly var x = ref verdicts[left];
        ref readonly var y = ref verdicts[right];
        var by = x.Rule.CompareTo(y.Rule);
        by = by != 0 ? by : ((byte)x.Line.Kind).CompareTo((byte)y.Line.Kind);
        by = by != 0 || x.Line.Entity == y.Line.Entity ? by : string.CompareOrdinal(names.NameOf(x.Line.Entity), names.NameOf(y.Line.Entity));
        by = by != 0 ? by : x.Subject.From.CompareTo(y.Subject.From);
        by = by != 0 ? by : (x.Outcome != Outcome.Breach).CompareTo(y.Outcome != Outcome.Breach);
        by = by != 0 || x.Subject.Identity == y.Subject.Identity
            ? by
            : string.CompareOrdinal(names.NameOf(x.Subject.Identity), names.NameOf(y.Subject.Identity));
        return by != 0 ? by : left.CompareTo(right);
    }
}
