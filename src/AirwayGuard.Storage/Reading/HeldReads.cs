using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Storage.Reading;

/// <summary>What was read: a chart for a question, or where there is no scope, the standing version of a resource.</summary>
internal readonly record struct HeldKey(Entity Of, QuestionScope? Scope, Position AsKnownAt);

/// <summary>
/// What was read lately and is still what the file says. Each reading is held with the entities it rests on, and let go of by the commit that
/// touches one of them, before whoever asked for the commit is told. Safe for concurrent use.
/// </summary>
/// <param name="most">What is held may weigh so much in all; the oldest goes first.</param>
internal sealed class HeldReads(int most)
{
    private readonly Lock _gate = new();
    private readonly Dictionary<HeldKey, Held> _byKey = [];
    private readonly Dictionary<Entity, HashSet<Held>> _restingOn = [];
    private readonly LinkedList<Held> _inOrder = new();
    private long _changes;
    private int _weight;

    /// <summary>To be asked for before the file is, and handed to <see cref="Hold"/>.</summary>
    public long Changes => Volatile.Read(ref _changes);

    public bool TryGet<T>(HeldKey key, out T? value)
        where T : class
    {
        lock (_gate)
        {
            var isHeld = _byKey.TryGetValue(key, out var held);
            value = isHeld ? (T?)held!.Value : null;
            return isHeld;
        }
    }

    /// <param name="restsOn">A commit that touches none of these leaves the value as it is.</param>
    /// <param name="weight">1 or more.</param>
    /// <param name="changes">As it was before the file was read: what was read while something changed is not held, since it may be older.</param>
    public void Hold(HeldKey key, object? value, IReadOnlyCollection<Entity> restsOn, int weight, long changes)
    {
        lock (_gate)
        {
            if (changes != _changes || weight > most || _byKey.ContainsKey(key))
            {
                return;
            }

            var held = new Held(key, value, restsOn, weight);
            _byKey.Add(key, held);
            held.Place = _inOrder.AddLast(held);
            foreach (var entity in restsOn)
            {
                if (!_restingOn.TryGetValue(entity, out var resting))
                {
                    _restingOn[entity] = resting = [];
                }

                resting.Add(held);
            }

            _weight += weight;
            while (_weight > most)
            {
                LetGo(_inOrder.First!.Value);
            }
        }
    }

    /// <summary>A commit has touched these.</summary>
    public void Change(IReadOnlyCollection<Entity> touched)
    {
        if (touched.Count == 0)
        {
            return;
        }

        lock (_gate)
        {
            _changes++;
            foreach (var entity in touched)
            {
                if (_restingOn.TryGetValue(entity, out var resting))
                {
                    foreach (var held in resting.ToArray())
                    {
                        LetGo(held);
                    }
                }
            }
        }
    }

    /// <summary>Nobody can tell what a commit has touched.</summary>
    public void Clear()
    {
        lock (_gate)
        {
            _changes++;
            _byKey.Clear();
            _restingOn.Clear();
            _inOrder.Clear();
            _weight = 0;
        }
    }

    private void LetGo(Held held)
    {
        _byKey.Remove(held.Key);
        _inOrder.Remove(held.Place!);
        _weight -= held.Weight;
        foreach (var entity in held.RestsOn)
        {
            var resting = _restingOn[entity];
            resting.Remove(held);
            if (resting.Count == 0)
            {
                _restingOn.Remove(entity);
            }
        }
    }

    private sealed class Held(HeldKey key, object? value, IReadOnlyCollection<Entity> restsOn, int weight)
    {
        public HeldKey Key => key;

        public object? Value => value;

        public IReadOnlyCollection<Entity> RestsOn => restsOn;

        public int Weight => weight;

        public LinkedListNode<Held>? Place { get; set; }
    }
}
