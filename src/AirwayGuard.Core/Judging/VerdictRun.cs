namespace AirwayGuard.Core.Judging;

/// <summary>Verdicts in an order of their own, read in place.</summary>
public readonly ref struct VerdictRun(ReadOnlySpan<Verdict> verdicts, ReadOnlySpan<int> order)
{
    private readonly ReadOnlySpan<Verdict> _verdicts = verdicts;
    private readonly ReadOnlySpan<int> _order = order;

    public int Length => _order.Length;

    public ref readonly Verdict this[int index] => ref _verdicts[_order[index]];

    public VerdictRun Slice(int start, int length) => new(_verdicts, _order.Slice(start, length));

    public Enumerator GetEnumerator() => new(this);

    /// <summary>One verdict after the other.</summary>
    public ref struct Enumerator(VerdictRun run)
    {
        private readonly VerdictRun _run = run;
        private int _at = -1;

        public readonly ref readonly Verdict Current => ref _run[_at];

        public bool MoveNext() => ++_at < _run.Length;
    }
}
