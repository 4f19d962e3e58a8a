using AirwayGuard.Core.Diagnostics;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace AirwayGuard.Rules.Reading;

/// <summary>
/// Runs over the parser's events before anything is built of them: no alias, anchor or tag, one document, at most 20 deep.
/// Stops at the first event that is too deep, so that neither stack nor memory grows with hostile nesting.
/// </summary>
internal static class EventCheck
{
    public const int MostDeep = 20;

    /// <summary>The events of the one document; empty where the text is not YAML, is too deep or holds nothing.</summary>
    public static List<ParsingEvent> Run(string text, Faults faults)
    {
        var kept = new List<ParsingEvent>();
        var (depth, documents, last) = (0, 0, new Place(1, 1));
        try
        {
            var parser = new Parser(new StringReader(text));
            while (parser.MoveNext() && !faults.IsFull)
            {
                var now = parser.Current!;
                last = PlaceOf(now.End);
                depth += now.NestingIncrease switch { > 0 when IsCollection(now) => 1, < 0 when IsCollection(now) => -1, _ => 0 };
                if (depth > MostDeep)
                {
                    faults.Add(Codes.RuleSetTooDeep, PlaceOf(now.Start), $"The document is nested more than {Words.Number(MostDeep)} deep here.");
                    return [];
                }

                if (now is DocumentStart && ++documents == 2)
                {
                    faults.Add(Codes.RuleSetSeveralDocuments, PlaceOf(now.Start), "A second document begins here.");
                    return [];
                }

                RefuseReferences(now, faults);
                if (now is NodeEvent || IsCollection(now))
                {
                    kept.Add(now);
                }
            }
        }
        catch (YamlException wrong)
        {
            // Its message quotes the text around; the place is enough for an author.
            Refuse(text, PlaceOf(wrong.Start), PlaceOf(wrong.End), last, faults);
            return [];
        }
        catch (Exception slip) when (slip is InvalidOperationException or ArgumentException or IndexOutOfRangeException or FormatException or OverflowException)
        {
            // The scanner's own slips on odd text, found by mutilating documents: it tells no place, so the last event's end stands for it.
            faults.Add(Codes.RuleSetNotYaml, last, "The YAML cannot be read from here on.");
            return [];
        }

        return kept;
    }

    // The parser points at the beginning of what the tab is in; a person looks for the tab, which few editors show. It stands between
    // the last that was read and where the parser stopped, or, where it does not say, in the next line that holds anything.
    private static void Refuse(string text, Place start, Place end, Place last, Faults faults)
    {
        var lines = text.Split('\n');
        var from = IsBefore(start, last) ? last : start;
        for (var line = Math.Max(from.Line, 1); line <= lines.Length; line++)
        {
            var rest = lines[line - 1].AsSpan().TrimStart(" \t");
            var tab = lines[line - 1].AsSpan()[..^rest.Length].IndexOf('\t');
            if (tab >= 0 && (line > from.Line || tab + 1 >= from.Column))
            {
                faults.Add(Codes.RuleSetNotYaml, new Place(line, tab + 1), "A tab indents the line here.");
                return;
            }

            if (line >= end.Line && line > from.Line && !rest.IsWhiteSpace())
            {
                break;
            }
        }

        faults.Add(Codes.RuleSetNotYaml, start, "The YAML cannot be read from here on.");
    }

    private static bool IsBefore(Place one, Place other) => one.Line != other.Line ? one.Line < other.Line : one.Column < other.Column;

    public static Place PlaceOf(Mark mark) => new((int)mark.Line, (int)mark.Column);

    private static bool IsCollection(ParsingEvent now) => now is SequenceStart or SequenceEnd or MappingStart or MappingEnd;

    private static void RefuseReferences(ParsingEvent now, Faults faults)
    {
        if (now is AnchorAlias)
        {
            faults.Add(Codes.RuleSetAlias, PlaceOf(now.Start), "An alias stands here.");
        }

        if (now is not NodeEvent node)
        {
            return;
        }

        if (!node.Anchor.IsEmpty)
        {
            faults.Add(Codes.RuleSetAnchor, PlaceOf(now.Start), "An anchor stands here.");
        }

        if (!node.Tag.IsEmpty)
        {
            faults.Add(Codes.RuleSetTag, PlaceOf(now.Start), "A tag stands here.");
        }
    }
}
