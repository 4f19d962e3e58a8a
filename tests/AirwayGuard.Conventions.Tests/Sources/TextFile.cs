namespace AirwayGuard.Conventions.Tests.Sources;

/// <summary>Any file of the repository that is text.</summary>
internal sealed record TextFile(string File, string[] Lines)
{
    private static readonly Lazy<TextFile[]> Every =
        new(() => [.. Repository.Files.Where(Repository.IsText).Select(file => new TextFile(file, Repository.Read(file).Split('\n')))]);

    public static IReadOnlyList<TextFile> All => Every.Value;

    /// <summary>Places, as <c>file:line</c>, of a text in any case.</summary>
    public IEnumerable<string> LinesWith(string what) => Places(line => line.Contains(what, StringComparison.OrdinalIgnoreCase));

    /// <summary>Places of a word that stands alone.</summary>
    public IEnumerable<string> LinesWithWord(string word) => Places(line =>
    {
        var at = line.IndexOf(word, StringComparison.Ordinal);
        return at >= 0 && (at == 0 || !char.IsLetterOrDigit(line[at - 1])) && (at + word.Length == line.Length || !char.IsLetterOrDigit(line[at + word.Length]));
    });

    private IEnumerable<string> Places(Func<string, bool> broken) =>
        Lines.Select((line, index) => (line, index)).Where(it => broken(it.line)).Select(it => $"{File}:{it.index + 1}");
}
