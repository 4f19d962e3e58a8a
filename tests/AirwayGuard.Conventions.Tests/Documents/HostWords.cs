using AirwayGuard.Conventions.Tests.Sources;

namespace AirwayGuard.Conventions.Tests.Documents;

/// <summary>The verbs and options of the command line, as the sources of the host declare them.</summary>
internal static class HostWords
{
    private const string NewCommand = "new Command(\"";

    // What the host's frameworks answer to beside our own verbs.
    private static readonly string[] FrameworkOptions = ["--help", "--version", "--urls", "--environment", "--contentRoot"];

    private static IEnumerable<SourceFile> Host => SourceFile.In("src/AirwayGuard.Host");

    public static IReadOnlySet<string> Verbs { get; } = Host.SelectMany(source => Literals(source.Text, NewCommand)).ToHashSet(StringComparer.Ordinal);

    /// <summary>Verbs that are always followed by another.</summary>
    public static IReadOnlySet<string> Groups { get; } = Host.Where(source => source.File.Contains("/Commands/", StringComparison.Ordinal) && !source.File.EndsWith("/CommandLine.cs", StringComparison.Ordinal) && source.Text.Contains(".Subcommands.Add(", StringComparison.Ordinal))
        .SelectMany(source => Literals(source.Text, NewCommand).Take(1)).ToHashSet(StringComparer.Ordinal);

    public static IReadOnlySet<string> Options { get; } =
        Host.SelectMany(source => Literals(source.Text, "\"--").Select(rest => "--" + rest)).Concat(FrameworkOptions).ToHashSet(StringComparer.Ordinal);

    private static IEnumerable<string> Literals(string text, string start)
    {
        for (var at = text.IndexOf(start, StringComparison.Ordinal); at >= 0; at = text.IndexOf(start, at + 1, StringComparison.Ordinal))
        {
            var from = at + start.Length;
            var end = text.IndexOf('"', from);
            if (end > from && text[from..end].All(sign => char.IsAsciiLetterLower(sign) || char.IsAsciiDigit(sign) || sign == '-'))
            {
                yield return text[from..end];
            }
        }
    }
}
