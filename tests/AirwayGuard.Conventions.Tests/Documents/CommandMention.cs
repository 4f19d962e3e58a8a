namespace AirwayGuard.Conventions.Tests.Documents;

/// <summary>A command line of ours that a document shows.</summary>
/// <param name="Words">What follows the program's name, up to a pipe, redirection or remark.</param>
internal sealed record CommandMention(string[] Words)
{
    private static readonly string[] Programs = ["airwayguard", "./airwayguard", "/opt/airwayguard/airwayguard"];
    private static readonly string[] ShellSigns = ["|", "||", "&&", "&", ">", ">>", "<", "#", ";"];

    public static IEnumerable<CommandMention> In(string code)
    {
        var words = code.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        for (var at = 0; at < words.Length; at++)
        {
            var isDotnetRun = words[at] == "--" && words[..at].Any(word => word.TrimEnd('/').EndsWith("src/AirwayGuard.Host", StringComparison.Ordinal));
            var isProgram = Programs.Contains(words[at].Replace("ExecStart=", "", StringComparison.Ordinal), StringComparer.Ordinal) && (at == 0 || at == 1 || ShellSigns.Contains(words[at - 1], StringComparer.Ordinal));
            if (isDotnetRun || (isProgram && words.Length > at + 1))
            {
                yield return new CommandMention([.. words[(at + 1)..].TakeWhile(word => !ShellSigns.Contains(word, StringComparer.Ordinal))]);
            }
        }
    }

    /// <summary>What of it the program would not know.</summary>
    public IEnumerable<string> Unknown()
    {
        // VERB, PATH… and the like stand for a word of the reader's.
        if (Words.Length > 0 && IsVerbLike(Words[0]))
        {
            if (!HostWords.Verbs.Contains(Words[0]))
            {
                yield return Words[0];
            }
            else if (HostWords.Groups.Contains(Words[0]) && Words.Length > 1 && IsVerbLike(Words[1]) && !Words[1].Split('|').All(HostWords.Verbs.Contains))
            {
                yield return $"{Words[0]} {Words[1]}";
            }
        }

        foreach (var option in Words.Select(word => word.Trim('[', ']')).Where(word => word.StartsWith("--", StringComparison.Ordinal) && word.Length > 2))
        {
            var name = option.Split('=')[0];
            if (!name.StartsWith("--AirwayGuard:", StringComparison.Ordinal) && !HostWords.Options.Contains(name))
            {
                yield return name;
            }
        }
    }

    private static bool IsVerbLike(string word) => char.IsAsciiLetterLower(word[0]) && word.All(sign => char.IsAsciiLetterLower(sign) || sign is '-' or '|');
}
