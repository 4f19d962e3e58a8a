namespace AirwayGuard.Conventions.Tests.Documents;

/// <summary>Finds what looks like a path of this repository in a document's code, and whether it is there.</summary>
internal static class PathMention
{
    private static readonly string[] Tops = ["src/", "tests/", "docs/", "deploy/", "fhir-samples/", ".ci/", ".config/"];
    private static readonly string[] OwnKinds = [".md", ".cs", ".csproj", ".props", ".targets", ".sln", ".sql", ".service"];
    private static readonly char[] Ends = [' ', '"', '\'', '(', ')', ',', ';', '=', '[', ']', '|'];

    /// <summary>Words of a piece of code that name a file or folder of ours: from a top folder, or a file of a kind only we have.</summary>
    public static IEnumerable<string> In(string code) =>
        code.Split(Ends, StringSplitOptions.RemoveEmptyEntries)
            .Select(word => (word.StartsWith("./", StringComparison.Ordinal) ? word[2..] : word).TrimEnd('.', ':'))
            .Where(word => LooksLikeOne(word) && !IsPlaceholder(word));

    /// <param name="path">From the root, from the document's folder, or a bare file name that exists anywhere; <c>*</c> stands for any text.</param>
    public static bool Exists(string path, string document)
    {
        if (path.Contains('*', StringComparison.Ordinal))
        {
            return Repository.Files.Any(file => System.IO.Enumeration.FileSystemName.MatchesSimpleExpression(path, file, ignoreCase: false));
        }

        return Repository.Has(path)
            || Repository.Has(Combine(document, path))
            || (!path.Contains('/', StringComparison.Ordinal) && Repository.Files.Any(file => Path.GetFileName(file) == path));
    }

    /// <summary>A path of a link, from the root.</summary>
    public static string Combine(string document, string relative)
    {
        var parts = new List<string>(document.Split('/')[..^1]);
        foreach (var part in relative.Split('/', StringSplitOptions.RemoveEmptyEntries))
        {
            if (part == ".." && parts.Count > 0)
            {
                parts.RemoveAt(parts.Count - 1);
            }
            else if (part != ".")
            {
                parts.Add(part);
            }
        }

        return string.Join('/', parts);
    }

    private static bool LooksLikeOne(string word) =>
        Tops.Any(top => word.StartsWith(top, StringComparison.Ordinal))
        || (OwnKinds.Contains(Path.GetExtension(word), StringComparer.Ordinal) && word[0] is not ('/' or '~' or '$' or '.' or '*'));

    private static bool IsPlaceholder(string word) =>
        word.AsSpan().ContainsAny('<', '{', '…') || word.Contains("...", StringComparison.Ordinal) || word.Contains("://", StringComparison.Ordinal);
}
