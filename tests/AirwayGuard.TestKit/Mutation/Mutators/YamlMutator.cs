using System.Text;

namespace AirwayGuard.TestKit.Mutation.Mutators;

/// <summary>Changes YAML line by line: indentation, tabs, anchors, aliases, tags, flows, values at the edges, lines moved and doubled.</summary>
internal static class YamlMutator
{
    private static readonly string[] Values =
    [
        "", "~", "null", "yes", "no", "&a x", "*a", "!!binary x", "!x y", "|", ">", ">-", "|9", "{", "}", "[", "]", "{ a: 1", "[1, 2", "\"", "'", "\"\\x\"", "\"\\ud800\"", "- ", "? x", ": ", "%YAML 1.2",
        "---", "...", "@x", "`x`", "# only", "1e400 mm[Hg]", "-0 mm[Hg]", "12345678901234567890123456789 mm[Hg]", "0.00000000000000000000000000001 mm[Hg]", "80 mm[Hg", "80", "80 furlong", "not-judged", "{limit}",
        "{value} {band} {limit} {nothing}", "{{{", "<<: *a", "a: b: c", "\t80", "\u202E80", "[[[[[[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]]]]]]", "cited", "2026-02-29", "0x10", "1_000", ".inf", ".nan",
    ];

    public static byte[] Mutate(IReadOnlyList<string[]> documents, Dice dice)
    {
        if (dice.Once(10))
        {
            return ByteMutator.Mutate(Encoding.UTF8.GetBytes(string.Join('\n', dice.OneOf(documents))), dice);
        }

        var lines = dice.OneOf(documents).ToList();
        for (var left = 1 + dice.Next(3); left > 0; left--)
        {
            Change(lines, documents, dice);
        }

        return Encoding.UTF8.GetBytes(string.Join(dice.Once(20) ? "\r\n" : "\n", lines));
    }

    private static void Change(List<string> lines, IReadOnlyList<string[]> documents, Dice dice)
    {
        var at = dice.Next(lines.Count);
        var line = lines[at];
        var colon = line.IndexOf(": ", StringComparison.Ordinal);
        switch (dice.Next(11))
        {
            case 0:
                lines.RemoveAt(at);
                lines.Add("");
                break;
            case 1:
                lines.Insert(at, line);
                break;
            case 2:
                lines.Insert(dice.Next(lines.Count), dice.OneOf(dice.OneOf(documents)));
                break;
            case 3:
                lines[at] = new string(' ', dice.Next(5)) + line;
                break;
            case 4:
                lines[at] = line.Length > 0 && line[0] == ' ' ? line[1..] : "\t" + line;
                break;
            case 5 when colon > 0:
                lines[at] = line[..(colon + 2)] + dice.OneOf(Values);
                break;
            case 6 when colon > 0:
                lines[at] = line[..colon] + dice.OneOf(Values) + line[colon..];
                break;
            case 7:
                lines[at] = line[..dice.Next(line.Length + 1)];
                break;
            case 8:
                lines[at] = dice.OneOf(Values);
                break;
            case 9 when dice.Once(20):
                lines[at] = line + new string(dice.Once(2) ? '[' : 'a', 20_000);
                break;
            default:
                var into = dice.Next(line.Length + 1);
                lines[at] = line[..into] + dice.OneOf(Values) + line[into..];
                break;
        }
    }
}
