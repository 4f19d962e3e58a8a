using AirwayGuard.Conventions.Tests.Documents;

namespace AirwayGuard.Conventions.Tests.Sources;

/// <summary>A page that any file names is in the repository: nobody can look up what lies elsewhere.</summary>
public class PagesNamedTests
{
    // The tests of documents try their rules on samples that name pages of no kind.
    private const string Samples = "tests/AirwayGuard.Conventions.Tests/";

    [Fact]
    public void APageThatAFileNames_IsThere() =>
        Rule.Holds(
            "Named and not there; say what it says instead:",
            TextFile.All.Where(file => !file.File.StartsWith(Samples, StringComparison.Ordinal))
                .SelectMany(file => file.Lines.SelectMany((line, index) => Missing(line, file.File).Select(page => $"{file.File}:{index + 1}: {page}"))));

    [Theory]
    [InlineData("// as contract.md §2 has it", "contract.md")]
    [InlineData("# see docs/none.md, or ask", "docs/none.md")]
    [InlineData("/// <summary>Contract.md lists them.</summary>", "Contract.md")]
    public void APageThatIsNotThere_IsSeen(string line, string page) => Assert.Equal([page], Missing(line, "src/some.cs"), StringComparer.Ordinal);

    [Theory]
    [InlineData("// docs/audit.md holds its exact form.")]
    [InlineData("see README.md and DEVELOPERS.md")]
    [InlineData("https://example.org/pages/none.md")]
    [InlineData("sum.md5")]
    public void WhatIsThereOrNoPageOfOurs_IsLeftAlone(string line) => Assert.Empty(Missing(line, "src/some.cs"));

    private static IEnumerable<string> Missing(string line, string file) =>
        string.Concat(line.Select(sign => IsOfPath(sign) ? sign : ' ')).Split(' ')
            .Select(word => word.TrimEnd('.', ':'))
            .Where(word => word.EndsWith(".md", StringComparison.Ordinal) && !word.Contains("//", StringComparison.Ordinal) && !PathMention.Exists(word, file));

    private static bool IsOfPath(char sign) => char.IsLetterOrDigit(sign) || sign is '.' or '/' or '-' or '_' or ':' or '*';
}
