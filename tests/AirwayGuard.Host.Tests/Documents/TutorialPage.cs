using AirwayGuard.Host.Tests.Scenarios;

namespace AirwayGuard.Host.Tests.Documents;

/// <summary>One fenced part of a page: a file to be saved, or commands with what they print.</summary>
/// <param name="File">Where it is saved; empty for commands.</param>
/// <param name="Line">In the page, from 1.</param>
internal sealed record TutorialStep(string File, string Content, IReadOnlyList<TutorialCommand> Commands, int Line);

/// <param name="Arguments">Of the program.</param>
/// <param name="Prints">Line by line; <c>…</c> alone stands for any lines, within one for any text.</param>
internal sealed record TutorialCommand(IReadOnlyList<string> Arguments, IReadOnlyList<string> Prints, int Line);

/// <summary>Reads a page whose fenced parts a reader follows.</summary>
internal static class TutorialPage
{
    private const string Fence = "```";
    private const string Any = "…";
    private const string Run = "$ dotnet run --project src/AirwayGuard.Host -- ";

    public static IReadOnlyList<TutorialStep> Read(string page)
    {
        var steps = new List<TutorialStep>();
        foreach (var (info, content, from) in Fenced(page))
        {
            if (info.Split(' ') is [_, var file])
            {
                steps.Add(new TutorialStep(file, content + "\n", [], from));
            }
            else if (info == "console")
            {
                steps.Add(new TutorialStep("", "", [.. Commands(content.Split('\n'), from)], from));
            }
        }

        return steps;
    }

    /// <summary>The fenced parts of a page, with what stands behind the opening fence and the line of it, from 1.</summary>
    public static IReadOnlyList<(string Info, string Content, int Line)> Fenced(string page)
    {
        var lines = System.IO.File.ReadAllLines(Path.Combine(ScenarioFolders.Root, "..", page));
        var parts = new List<(string, string, int)>();
        for (var i = 0; i < lines.Length; i++)
        {
            if (!lines[i].StartsWith(Fence, StringComparison.Ordinal))
            {
                continue;
            }

            var (info, from) = (lines[i][Fence.Length..], i + 1);
            for (i++; i < lines.Length && lines[i] != Fence; i++)
            {
            }

            parts.Add((info, string.Join('\n', lines[from..i]), from));
        }

        return parts;
    }

    /// <summary>Whether what was printed is what the page shows; null where it is, else what is other.</summary>
    public static string? Difference(TutorialCommand command, string printed) =>
        Fits([.. command.Prints], printed.TrimEnd('\n').Split('\n')) ? null
            : $"line {command.Line}: {string.Join(' ', command.Arguments)}\nprinted\n{printed}\nand not\n{string.Join('\n', command.Prints)}";

    private static bool Fits(ReadOnlySpan<string> shown, ReadOnlySpan<string> printed)
    {
        while (shown.Length > 0 && shown[0] != Any)
        {
            if (printed.Length == 0 || !FitsLine(shown[0], printed[0]))
            {
                return false;
            }

            shown = shown[1..];
            printed = printed[1..];
        }

        if (shown.Length == 0)
        {
            return printed.Length == 0;
        }

        for (var skipped = 0; skipped <= printed.Length; skipped++)
        {
            if (Fits(shown[1..], printed[skipped..]))
            {
                return true;
            }
        }

        return false;
    }

    private static bool FitsLine(string shown, string printed)
    {
        if (!shown.Contains(Any, StringComparison.Ordinal))
        {
            return shown == printed;
        }

        var (parts, at) = (shown.Split(Any), 0);
        foreach (var part in parts)
        {
            var found = printed.IndexOf(part, at, StringComparison.Ordinal);
            if (found < 0 || (at == 0 && part.Length > 0 && part == parts[0] && found > 0))
            {
                return false;
            }

            at = found + part.Length;
        }

        return printed.EndsWith(parts[^1], StringComparison.Ordinal);
    }

    private static IEnumerable<TutorialCommand> Commands(string[] content, int at)
    {
        for (var i = 0; i < content.Length; i++)
        {
            if (!content[i].StartsWith(Run, StringComparison.Ordinal))
            {
                continue;
            }

            var prints = content[(i + 1)..].TakeWhile(static line => !line.StartsWith('$')).ToList();
            yield return new TutorialCommand([.. Words(content[i][Run.Length..])], prints, at + i + 1);
        }
    }

    // What stands in quotes is one word.
    private static IEnumerable<string> Words(string line) =>
        line.Split('"').SelectMany(static (part, index) => index % 2 == 1 ? [part] : part.Split(' ', StringSplitOptions.RemoveEmptyEntries));
}
