namespace AirwayGuard.Conventions.Tests.Sources;

/// <summary>A pattern is written at build time and cannot be made to backtrack by what somebody charted.</summary>
public class RegularExpressionsTests
{
    [Theory]
    [InlineData("new Regex(")]
    [InlineData("Regex.IsMatch(")]
    [InlineData("Regex.Match(")]
    [InlineData("Regex.Matches(")]
    [InlineData("Regex.Replace(")]
    [InlineData("Regex.Split(")]
    [InlineData("Regex.Count(")]
    [InlineData("Regex.EnumerateMatches(")]
    public void NoPattern_IsBuiltAtRunTime(string call) =>
        Rule.Holds($"{call} is not for us:", SourceFile.All.SelectMany(source => source.PlacesOf(call)));

    [Fact]
    public void AGeneratedPattern_DoesNotBacktrack() =>
        Rule.Holds(
            "Without RegexOptions.NonBacktracking:",
            SourceFile.All.SelectMany(source => source.OffsetsOf("[GeneratedRegex")
                .Where(at => !source.Bracketed(at).Contains("NonBacktracking", StringComparison.Ordinal))
                .Select(source.Place)));
}
