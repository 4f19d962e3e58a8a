using System.Text.RegularExpressions;
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
internal static partial class TutorialPage
{
    private const string Fence = "```";
    private const string Run = "$ dotnet run --project src/AirwayGuard.Host -- ";

    public static IReadOnlyList<TutorialStep> Read(string page)
    {
        var lines = System.IO.File.ReadAllLines(Path.Combine(ScenarioFolders.Root, "..", page));
        var steps = new List<TutorialStep>();
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

            var content = lines[from..i];
            if (info.Split(' ') is [_, var file])
            {
                steps.Add(new TutorialStep(file, string.Join('\n', content) + "\n", [], from));
            }
            else if (info == "console")
            {
                steps.Add(new TutorialStep("", "", [.. Commands(content, from)], from));
            }
        }

        return steps;
    }

    /// <summary>Whether what was printed is what the page shows; null where it is, else what is other.</summary>
    public static string? Difference(TutorialCommand command, string printed)
    {
        var pattern = string.Concat(command.Prints.Select(static line => line == "…" ? "(?:.*\n)*?" : Regex.Escape(line).Replace("…", ".*", StringComparison.Ordinal) + "\n"));
        return Regex.IsMatch(printed, $"^{pattern}$", RegexOptions.CultureInvariant, TimeSpan.FromSeconds(10)) ? null
            : $"line {command.Line}: {string.Join(' ', command.Arguments)}\nprinted\n{printed}\nand not\n{string.Join('\n', command.Prints)}";
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
            yield return new TutorialCommand([.. Words().Matches(content[i][Run.Length..]).Select(static word => word.Value.Trim('"'))], prints, at + i + 1);
        }
    }

    [GeneratedRegex("\"[^\"]*\"|[^ ]+", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Words();
}
