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

    public void Clear() => _verdicts.Clear();

    public void Accept(in Verdict verdict) => _verdicts.Add(verdict);

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
