using System.Runtime.InteropServices;

namespace AirwayGuard.Core.Suctioning;

/// <summary>Indexes of facts by a key they share, each chain in order of index. Keeps its memory from patient to patient.</summary>
internal sealed class FactChains<TKey>
    where TKey : notnull
{
    private readonly Dictionary<TKey, int> _first = [];
    private int[] _next = [];

    public void Clear(int facts)
    {
        _first.Clear();
        if (_next.Length < facts)
        {
            _next = new int[Math.Max(facts, _next.Length * 2)];
        }
    }

    /// <summary>Puts a fact before those that are in its chain already: to be called from the last fact to the first.</summary>
    public void Prepend(TKey key, int fact)
    {
        ref var first = ref CollectionsMarshal.GetValueRefOrAddDefault(_first, key, out var hasOthers);
        _next[fact] = hasOthers ? first : -1;
        first = fact;
    }

    public void AddTo(List<int> facts, TKey key)
    {
        for (var fact = _first.TryGetValue(key, out var first) ? first : -1; fact >= 0; fact = _next[fact])
        {
            facts.Add(fact);
        }
    }
}
