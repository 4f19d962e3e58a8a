using AirwayGuard.Conventions.Tests.Sources;

namespace AirwayGuard.Conventions.Tests.Documents;

/// <summary>A code that a document names exists, and is defined where codes are.</summary>
public class DocumentCodesTests
{
    private const string Home = "src/AirwayGuard.Core/Diagnostics/Codes.";

    private static readonly HashSet<string> Ids = KnownCodes.All.Select(it => it.Code.Id).ToHashSet(StringComparer.Ordinal);

    [Fact]
    public void EveryCodeInADocument_Exists() =>
        Rule.Holds(
            "Named in a document and not defined:",
            Document.All.SelectMany(document => KnownCodes.In(document.Text).Where(id => !Ids.Contains(id)).Distinct(StringComparer.Ordinal).Select(id => $"{document.File}: {id}")));

    [Fact]
    public void NoCode_IsSpelledOutInTheService_ButWhereItIsDefined() =>
        Rule.Holds(
            $"Use the field of Codes ({Home}*.cs):",
            SourceFile.In("src").Where(source => !source.File.StartsWith(Home, StringComparison.Ordinal))
                .SelectMany(source => source.Text.Split('\n').Where(line => !IsComment(line)).SelectMany(KnownCodes.In).Select(id => $"{source.File}: {id}")));

    [Fact]
    public void EveryCodeInAComment_Exists() =>
        Rule.Holds(
            "Named in a comment and not defined:",
            SourceFile.In("src").SelectMany(source => source.Text.Split('\n').Where(IsComment).SelectMany(KnownCodes.In).Where(id => !Ids.Contains(id)).Select(id => $"{source.File}: {id}")));

    [Theory]
    [InlineData("see AG1999, AG2103.", new[] { "AG1999", "AG2103" })]
    [InlineData("AGnnnn, AG21, AG21035, XAG2103, AG9000, AG2103x", new string[0])]
    public void AnId_IsTakenAsAWhole(string text, string[] ids) => Assert.Equal(ids, KnownCodes.In(text), StringComparer.Ordinal);

    private static bool IsComment(string line) => line.TrimStart().StartsWith("//", StringComparison.Ordinal);
}
