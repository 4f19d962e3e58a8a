using System.Collections.Concurrent;

namespace AirwayGuard.Fhir.Reading;

/// <summary>What was made of something lately, where it depends on nothing else: two generations, so that memory does not grow. Safe for concurrent use.</summary>
/// <param name="most">Of one generation.</param>
/// <param name="make">Pure. Two that ask at once may both call it.</param>
internal sealed class Lately<TKey, TValue>(int most, Func<TKey, TValue> make)
    where TKey : notnull
{
    private volatile ConcurrentDictionary<TKey, TValue> _young = new();
    private volatile ConcurrentDictionary<TKey, TValue> _old = new();
    private int _count;

    public TValue Of(TKey key)
    {
        if (_young.TryGetValue(key, out var value))
        {
            return value;
        }

        value = _old.TryGetValue(key, out var old) ? old : make(key);
        if (_young.TryAdd(key, value) && Interlocked.Increment(ref _count) >= most)
        {
            (_old, _young) = (_young, new());
            Interlocked.Exchange(ref _count, 0);
        }

        return value;
    }
}
