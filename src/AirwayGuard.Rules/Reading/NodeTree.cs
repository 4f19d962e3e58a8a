using AirwayGuard.Core.Diagnostics;
using YamlDotNet.Core.Events;

namespace AirwayGuard.Rules.Reading;

/// <summary>Builds nodes from checked events. It recurses as deep as <see cref="EventCheck.MostDeep"/> at most.</summary>
internal sealed class NodeTree
{
    private readonly List<ParsingEvent> _events;
    private readonly Faults _faults;
    private int _next;

    private NodeTree(List<ParsingEvent> events, Faults faults) => (_events, _faults) = (events, faults);

    /// <summary>The document's root, or null where it is empty.</summary>
    public static Node? Build(List<ParsingEvent> events, Faults faults)
    {
        var root = events.Count == 0 ? null : new NodeTree(events, faults).Read();
        return root is TextNode { IsBlank: true } ? null : root;
    }

    private Node Read()
    {
        if (_next == _events.Count || _events[_next] is SequenceEnd or MappingEnd)
        {
            return Broken();
        }

        var now = _events[_next++];
        var at = EventCheck.PlaceOf(now.Start);
        return now switch
        {
            SequenceStart => ReadList(at),
            MappingStart => ReadMap(at),
            Scalar scalar => new TextNode(at, scalar.Value),
            _ => new TextNode(at, ""),
        };
    }

    // The parser gives an entry without its value where a last line holds a colon alone.
    private TextNode Broken()
    {
        var last = EventCheck.PlaceOf(_events[Math.Min(_next, _events.Count - 1)].Start);
        _next = _events.Count;
        _faults.Add(Codes.RuleSetNotYaml, last, "The YAML cannot be read from here on.");
        return new TextNode(last, "");
    }

    private ListNode ReadList(Place at)
    {
        var items = new List<Node>();
        while (_next < _events.Count && _events[_next] is not SequenceEnd)
        {
            items.Add(Read());
        }

        _next++;
        return new ListNode(at, items);
    }

    private MapNode ReadMap(Place at)
    {
        var entries = new List<Entry>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        while (_next < _events.Count && _events[_next] is not MappingEnd)
        {
            var key = Read();
            var value = Read();
            if (key is not TextNode text)
            {
                _faults.Add(Codes.RuleSetShapeWrong, key.At, $"A key is {key.Shape}.", "Keys are single words.");
            }
            else if (!seen.Add(text.Text))
            {
                _faults.Add(Codes.RuleSetKeyDoubled, key.At, $"The key {Words.Quote(text.Text)} was given before.");
            }
            else
            {
                entries.Add(new Entry(text.Text, key.At, value));
            }
        }

        _next++;
        return new MapNode(at, entries);
    }
}
