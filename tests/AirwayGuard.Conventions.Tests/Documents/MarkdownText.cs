namespace AirwayGuard.Conventions.Tests.Documents;

/// <summary>What a document shows as code, and what it links to.</summary>
internal static class MarkdownText
{
    /// <summary>Texts between backticks outside code blocks. A span may run over a line end, as Markdown allows.</summary>
    public static IEnumerable<string> Spans(string text)
    {
        var prose = string.Join('\n', Split(text).Where(line => !line.InBlock).Select(line => line.Text));
        for (var open = prose.IndexOf('`', StringComparison.Ordinal); open >= 0;)
        {
            var ticks = 1;
            while (open + ticks < prose.Length && prose[open + ticks] == '`')
            {
                ticks++;
            }

            var close = prose.IndexOf(new string('`', ticks), open + ticks, StringComparison.Ordinal);
            if (close < 0)
            {
                yield break;
            }

            yield return string.Join(' ', prose[(open + ticks)..close].Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
            open = prose.IndexOf('`', close + ticks);
        }
    }

    /// <summary>Lines of the code blocks; a line that ends in a backslash is joined with the next.</summary>
    public static IEnumerable<string> BlockLines(string text)
    {
        var joined = "";
        foreach (var line in Split(text).Where(line => line.InBlock))
        {
            if (line.Text.EndsWith('\\'))
            {
                joined += line.Text[..^1] + " ";
                continue;
            }

            yield return (joined + line.Text).Trim();
            joined = "";
        }
    }

    /// <summary>Targets of links that are no web or mail address and no place in the same page; without the place in theirs.</summary>
    public static IEnumerable<string> LinkTargets(string text)
    {
        foreach (var line in Split(text).Where(line => !line.InBlock))
        {
            for (var at = line.Text.IndexOf("](", StringComparison.Ordinal); at >= 0; at = line.Text.IndexOf("](", at + 2, StringComparison.Ordinal))
            {
                var close = line.Text.IndexOf(')', at);
                var target = close < 0 ? "" : line.Text[(at + 2)..close].Split('#')[0];
                if (target.Length > 0 && !target.Contains(':', StringComparison.Ordinal))
                {
                    yield return target;
                }
            }
        }
    }

    private static IEnumerable<(string Text, bool InBlock)> Split(string text)
    {
        var inBlock = false;
        foreach (var line in text.Split('\n'))
        {
            if (line.TrimStart().StartsWith("```", StringComparison.Ordinal))
            {
                inBlock = !inBlock;
            }
            else
            {
                yield return (line.TrimEnd('\r'), inBlock);
            }
        }
    }
}
