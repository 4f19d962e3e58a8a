namespace AirwayGuard.Conventions.Tests.Sources;

/// <summary>One C# file, and where in its code something stands.</summary>
internal sealed record SourceFile(string File, string Text, string Code)
{
    private static readonly Lazy<SourceFile[]> Every = new(() => [.. Repository.CSharp("src", "tests").Select(Read)]);

    public static IReadOnlyList<SourceFile> All => Every.Value;

    public static IEnumerable<SourceFile> In(string folder) => All.Where(source => source.File.StartsWith(folder + "/", StringComparison.Ordinal));

    /// <summary>Places in the code, as <c>file:line</c>, where a text stands as a whole: not as a part of a longer name.</summary>
    public IEnumerable<string> PlacesOf(string what) => OffsetsOf(what).Select(Place);

    public IEnumerable<int> OffsetsOf(string what)
    {
        for (var at = Code.IndexOf(what, StringComparison.Ordinal); at >= 0; at = Code.IndexOf(what, at + 1, StringComparison.Ordinal))
        {
            if ((at == 0 || !IsOfName(Code[at - 1]) || !IsOfName(what[0])) && (at + what.Length == Code.Length || !IsOfName(Code[at + what.Length]) || !IsOfName(what[^1])))
            {
                yield return at;
            }
        }
    }

    public string Place(int offset) => $"{File}:{Code.AsSpan(0, offset).Count('\n') + 1}";

    /// <summary>What stands between a bracket and the one that closes it.</summary>
    /// <param name="open">Where the opening bracket stands.</param>
    public string Bracketed(int open)
    {
        var depth = 0;
        for (var at = open; at < Code.Length; at++)
        {
            depth += Code[at] switch { '(' or '{' or '[' => 1, ')' or '}' or ']' => -1, _ => 0 };
            if (depth == 0)
            {
                return Code[(open + 1)..at];
            }
        }

        return Code[(open + 1)..];
    }

    private static SourceFile Read(string file)
    {
        var text = Repository.Read(file);
        return new SourceFile(file, text, CodeText.Of(text));
    }

    private static bool IsOfName(char sign) => char.IsLetterOrDigit(sign) || sign == '_';
}
