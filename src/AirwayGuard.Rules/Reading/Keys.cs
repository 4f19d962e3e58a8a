using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Rules.Reading;

/// <summary>A map whose keys are known: unknown ones are faults, missing ones are told when asked for.</summary>
internal sealed class Keys
{
    private readonly Faults _faults;
    private readonly Dictionary<string, Entry> _entries = new(StringComparer.Ordinal);

    private Keys(Place at, Faults faults) => (At, _faults) = (at, faults);

    public Place At { get; }

    public bool Has(string key) => _entries.ContainsKey(key);

    public Entry? Find(string key) => _entries.GetValueOrDefault(key);

    /// <summary>The map, with a fault for each key that is not among <paramref name="allowed"/>; null (and a fault) where it is no map.</summary>
    public static Keys? Of(Node node, Faults faults, string what, params ImmutableArray<string> allowed)
    {
        if (node is not MapNode map)
        {
            faults.Add(Codes.RuleSetShapeWrong, node.At, $"{what} is {node.Shape}.", $"It has the keys {string.Join(", ", allowed)}.");
            return null;
        }

        var keys = new Keys(map.At, faults);
        foreach (var entry in map.Entries)
        {
            if (faults.IsFull)
            {
                break;
            }

            if (allowed.Contains(entry.Key, StringComparer.Ordinal))
            {
                keys._entries.Add(entry.Key, entry);
            }
            else
            {
                faults.Add(
                    Codes.RuleSetKeyUnknown, entry.At,
                    $"{what} has no key {Words.Quote(entry.Key)}.{Words.DidYouMean(entry.Key, allowed)}", Words.Listed(allowed));
            }
        }

        return keys;
    }

    /// <summary>The value of a key that must be there.</summary>
    public Node? Required(string key, string what)
    {
        if (_entries.TryGetValue(key, out var entry))
        {
            return entry.Value;
        }

        _faults.Add(Codes.RuleSetKeyMissing, At, $"{what} has no {key}.", $"Add {key}.");
        return null;
    }

    /// <summary>A text that must be there and not blank.</summary>
    public bool TryRequiredText(string key, string what, [NotNullWhen(true)] out TextNode? text)
    {
        text = null;
        return Required(key, what) is { } node && TryText(node, key, out text);
    }

    /// <summary>A text that may be absent; false (and a fault) where it is there but no text.</summary>
    public bool TryText(string key, [NotNullWhen(true)] out TextNode? text)
    {
        text = null;
        return Find(key) is { } entry && TryText(entry.Value, key, out text);
    }

    /// <summary>A word of a table, with the given code where it is none of them. The fallback where it is absent or wrong.</summary>
    public T Word<T>(string key, ImmutableArray<(string Word, T Value)> table, DiagnosticCode code, T fallback)
    {
        if (!TryText(key, out var text))
        {
            return fallback;
        }

        if (Words.TryFind(table, text.Text, out var value))
        {
            return value;
        }

        _faults.Add(
            code, text.At, $"{key} is {Words.Quote(text.Text)}.{Words.DidYouMean(text.Text, table.Select(row => row.Word))}", Words.Listed(table));
        return fallback;
    }

    /// <summary>The items of a list; a single text counts as a list of one.</summary>
    public IReadOnlyList<Node> Items(Node node, string key)
    {
        switch (node)
        {
            case ListNode { Items.Count: > 0 } list:
                return list.Items;
            case TextNode { IsBlank: false }:
                return [node];
            case ListNode or TextNode:
                _faults.Add(Codes.RuleSetShapeWrong, node.At, $"{key} is empty.", "Give at least one item, or leave the key out.");
                return [];
            default:
                _faults.Add(Codes.RuleSetShapeWrong, node.At, $"{key} is {node.Shape}.", "Write a list.");
                return [];
        }
    }

    private bool TryText(Node node, string key, [NotNullWhen(true)] out TextNode? text)
    {
        text = node as TextNode;
        if (text is { IsBlank: false })
        {
            return true;
        }

        _faults.Add(Codes.RuleSetShapeWrong, node.At, text is null ? $"{key} is {node.Shape}." : $"{key} is empty.", "Write a text.");
        text = null;
        return false;
    }
}
