namespace AirwayGuard.Conventions.Tests.Sources;

/// <summary>What stands in the repository is done: no reminder, no stub, nothing switched off, nothing swallowed.</summary>
public class UnfinishedWorkTests
{
    [Theory]
    [InlineData("TO" + "DO")]
    [InlineData("FIX" + "ME")]
    [InlineData("HA" + "CK")]
    public void NoFile_HoldsAReminder(string word) =>
        Rule.Holds($"{word}: do it, or leave it out.", TextFile.All.SelectMany(file => file.LinesWithWord(word)));

    [Theory]
    [InlineData("NotImplementedException")]
    [InlineData("#pragma warning disable")]
    public void NoSource_Holds(string what) =>
        Rule.Holds($"{what}:", SourceFile.All.SelectMany(source => source.PlacesOf(what)));

    [Theory]
    [InlineData("<No" + "Warn")]
    [InlineData("/nowarn:")]
    public void NoBuildFile_SilencesAWarning(string what) =>
        Rule.Holds(
            $"{what}:",
            TextFile.All.Where(file => Path.GetExtension(file.File) is ".csproj" or ".props" or ".targets" or ".rsp")
                .SelectMany(file => file.LinesWith(what)));

    [Theory]
    [InlineData("Skip = ")]
    [InlineData("Skip=")]
    [InlineData("Assert.Skip")]
    [InlineData("Explicit = true")]
    public void NoTest_IsSkipped(string what) =>
        Rule.Holds("A test that does not run is not there:", SourceFile.In("tests").Where(source => !IsThisProject(source)).SelectMany(source => source.PlacesOf(what)));

    [Fact]
    public void NoCatch_IsEmptyAndUnexplained() =>
        Rule.Holds(
            "Says neither what it does nor why it does nothing:",
            SourceFile.All.SelectMany(source => source.OffsetsOf("catch").Where(at => IsSilent(source, at)).Select(source.Place)));

    [Theory]
    [InlineData("try { A(); } catch { }", true)]
    [InlineData("try { A(); } catch (B b) when (b.C(1)) {\n}", true)]
    [InlineData("try { A(); } catch (B) { /* Gone already. */ }", false)]
    [InlineData("try { A(); } catch (B) { C(); }", false)]
    public void ACatch_IsSilent_WhereItHoldsNeitherCodeNorAReason(string text, bool silent)
    {
        var source = new SourceFile("Some.cs", text, CodeText.Of(text));
        Assert.Equal(silent, IsSilent(source, Assert.Single(source.OffsetsOf("catch"))));
    }

    private static bool IsSilent(SourceFile source, int at)
    {
        var open = at;
        var depth = 0;
        while (open < source.Code.Length && (source.Code[open] != '{' || depth > 0))
        {
            depth += source.Code[open] switch { '(' => 1, ')' => -1, _ => 0 };
            open++;
        }

        return open < source.Code.Length && string.IsNullOrWhiteSpace(source.Text.AsSpan(open + 1, source.Bracketed(open).Length).ToString());
    }

    private static bool IsThisProject(SourceFile source) => source.File.StartsWith("tests/AirwayGuard.Conventions.Tests/", StringComparison.Ordinal);
}
