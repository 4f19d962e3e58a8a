namespace AirwayGuard.Conventions.Tests.Layout;

/// <summary>The top of the repository stays as short as a reader's first look.</summary>
public class TopLevelTests
{
    private static readonly string[] Expected =
        ["AirwayGuard.sln", "DEVELOPERS.md", "README.md", "deploy", "docs", "fhir-samples", "global.json", "src", "tests"];

    [Fact]
    public void NothingIsMissing() =>
        Rule.Holds("Missing at the top of the repository:", Expected.Except(Repository.TopLevel, StringComparer.Ordinal));

    [Fact]
    public void NothingElseIsThere_ButDotFiles() =>
        Rule.Holds(
            "Not expected at the top of the repository:",
            Repository.TopLevel.Where(name => name[0] != '.').Except(Expected, StringComparer.Ordinal));

    [Fact]
    public void NoFileOfPackageSources_TiesARestoreToOneRegistry() =>
        Rule.Holds("Leave package sources to the machine:", Repository.Files.Where(file => Path.GetFileName(file).Equals("nuget.config", StringComparison.OrdinalIgnoreCase)));
}
