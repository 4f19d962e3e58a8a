namespace AirwayGuard.Conventions.Tests.Documents;

/// <summary>A command that a document shows can be typed.</summary>
public class DocumentCommandsTests
{
    [Fact]
    public void EveryCommand_HasVerbsAndOptionsThatExist() =>
        Rule.Holds(
            "Shown in a document and not known to the program:",
            Document.All.SelectMany(document => document.Code.SelectMany(CommandMention.In).SelectMany(command => command.Unknown())
                .Distinct(StringComparer.Ordinal).Select(word => $"{document.File}: {word}")));

    [Fact]
    public void ASpanThatBeginsWithAGroup_GoesOnWithOneOfItsVerbs() =>
        Rule.Holds(
            "Shown in a document and not known to the program:",
            Document.All.Where(document => document.IsMarkdown).SelectMany(document => MarkdownText.Spans(document.Text)
                .Select(span => span.Split(' '))
                .Where(words => words.Length > 1 && HostWords.Groups.Contains(words[0]))
                .SelectMany(words => new CommandMention(words).Unknown())
                .Distinct(StringComparer.Ordinal).Select(word => $"{document.File}: {word}")));

    [Fact]
    public void TheSources_DeclareWhatThisTestGoesBy()
    {
        Assert.Superset(new HashSet<string>(["check", "rules", "list", "show", "lint"], StringComparer.Ordinal), new HashSet<string>(HostWords.Verbs, StringComparer.Ordinal));
        Assert.Contains("rules", HostWords.Groups);
        Assert.DoesNotContain("check", HostWords.Groups);
        Assert.Contains("--as-of", HostWords.Options);
    }

    [Theory]
    [InlineData("dotnet run --project src/AirwayGuard.Host -- invent x", "invent")]
    [InlineData("dotnet run -c Release --project src/AirwayGuard.Host -- check x --invented 1", "--invented")]
    [InlineData("airwayguard rules invent", "rules invent")]
    [InlineData("cat x | airwayguard check - --invented", "--invented")]
    public void AWordThatTheProgramDoesNotKnow_IsSeen(string line, string word) =>
        Assert.Equal([word], CommandMention.In(line).SelectMany(command => command.Unknown()), StringComparer.Ordinal);

    [Theory]
    [InlineData("dotnet run --project src/AirwayGuard.Host -- check x.json --rules strict-ranges --as-of T")]
    [InlineData("dotnet run --project src/AirwayGuard.Host -- --urls ADDRESS --AirwayGuard:Mode=live")]
    [InlineData("dotnet run --project src/AirwayGuard.Host -- VERB")]
    [InlineData("airwayguard rules list|show")]
    [InlineData("airwayguard check x | other --invented")]
    public void AKnownOne_IsLeftAlone(string line) =>
        Assert.Empty(CommandMention.In(line).SelectMany(command => command.Unknown()));
}
