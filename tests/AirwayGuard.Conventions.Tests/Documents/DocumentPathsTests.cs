namespace AirwayGuard.Conventions.Tests.Documents;

/// <summary>A path that a document names is there.</summary>
public class DocumentPathsTests
{
    [Fact]
    public void EveryPathInCode_Exists() =>
        Rule.Holds(
            "Named in a document and not there:",
            Document.All.SelectMany(document => document.Code.SelectMany(PathMention.In).Distinct(StringComparer.Ordinal)
                .Where(path => !PathMention.Exists(path, document.File))
                .Select(path => $"{document.File}: {path}")));

    [Fact]
    public void EveryLink_LeadsToAFileOrFolder() =>
        Rule.Holds(
            "Linked from a document and not there:",
            Document.All.Where(document => document.IsMarkdown).SelectMany(document => MarkdownText.LinkTargets(document.Text)
                .Where(target => !Repository.Has(PathMention.Combine(document.File, target)))
                .Select(target => $"{document.File}: {target}")));

    [Theory]
    [InlineData("see `src/Nowhere/None.cs` now", "src/Nowhere/None.cs")]
    [InlineData("see `None.md`.", "None.md")]
    [InlineData("```\ndotnet test --project tests/None\n```", "tests/None")]
    [InlineData("```\nA=1 \\\n  ./.ci/none\n```", ".ci/none")]
    public void APathThatIsNotThere_IsSeen(string text, string path)
    {
        var seen = Assert.Single(new Document("docs/some.md", text).Code.SelectMany(PathMention.In));
        Assert.Equal(path, seen);
        Assert.False(PathMention.Exists(seen, "docs/some.md"));
    }

    [Theory]
    [InlineData("`application/fhir+json`")]
    [InlineData("`/health/live`")]
    [InlineData("`Patient/p1`")]
    [InlineData("`src/<project>/x`")]
    [InlineData("src/None.cs in prose")]
    public void WhatIsNoPathOfOurs_IsLeftAlone(string text) =>
        Assert.Empty(new Document("docs/some.md", text).Code.SelectMany(PathMention.In));

    [Theory]
    [InlineData("src/AirwayGuard.Core")]
    [InlineData("src/AirwayGuard.Core/Measures/")]
    [InlineData("Repository.cs")]
    [InlineData("src/AirwayGuard.Core/Diagnostics/Codes.*.cs")]
    [InlineData("adr/2611-one-writer-sqlite-ledger.md")]
    public void APathThatIsThere_IsFound(string path) => Assert.True(PathMention.Exists(path, "docs/audit.md"));

    [Fact]
    public void ALink_IsFollowedFromItsDocument()
    {
        Assert.Equal(["../README.md"], MarkdownText.LinkTargets("[a](../README.md#top) [b](https://example.org) [c](#here)"), StringComparer.Ordinal);
        Assert.Equal("README.md", PathMention.Combine("docs/some.md", "../README.md"));
    }
}
