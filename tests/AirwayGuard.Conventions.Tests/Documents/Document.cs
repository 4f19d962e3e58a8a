namespace AirwayGuard.Conventions.Tests.Documents;

/// <summary>A page that people follow, or a file of <c>deploy</c> that machines follow.</summary>
internal sealed record Document(string File, string Text)
{
    private static readonly Lazy<Document[]> Every = new(() =>
        [.. Repository.Files.Where(IsDocument).Select(file => new Document(file, Repository.Read(file)))]);

    public static IReadOnlyList<Document> All => Every.Value;

    public bool IsMarkdown => File.EndsWith(".md", StringComparison.Ordinal);

    private static bool IsDocument(string file) =>
        file is "README.md" or "DEVELOPERS.md" or "fhir-samples/README.md"
        || file.StartsWith("docs/", StringComparison.Ordinal)
        || file.StartsWith("deploy/", StringComparison.Ordinal);

    /// <summary>Code spans and the lines of code blocks; of a file that is no Markdown, every line.</summary>
    public IEnumerable<string> Code => IsMarkdown ? MarkdownText.Spans(Text).Concat(MarkdownText.BlockLines(Text)) : Text.Split('\n');
}
