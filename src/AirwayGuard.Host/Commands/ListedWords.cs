using System.CommandLine;

namespace AirwayGuard.Host.Commands;

/// <summary>Options that take one word of a list.</summary>
internal static class ListedWords
{
    /// <summary>Refuses other words, naming those that it takes.</summary>
    public static void Only(this Option<string> option, params string[] words)
    {
        option.CompletionSources.Add(words);
        option.Validators.Add(given =>
        {
            if (given.Tokens.Any(token => !words.Contains(token.Value, StringComparer.Ordinal)))
            {
                given.AddError($"it takes {string.Join(", ", words[..^1])} or {words[^1]}");
            }
        });
    }
}
