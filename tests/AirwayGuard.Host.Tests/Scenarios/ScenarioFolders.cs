namespace AirwayGuard.Host.Tests.Scenarios;

/// <summary>Where the numbered scenarios lie: <c>fhir-samples</c> beside the solution.</summary>
public static class ScenarioFolders
{
    public static string Root { get; } = Find();

    /// <summary>The scenarios' folders in the order of their numbers.</summary>
    public static IReadOnlyList<string> All { get; } =
        [.. Directory.GetDirectories(Root).Where(folder => char.IsAsciiDigit(Path.GetFileName(folder)[0])).Order(StringComparer.Ordinal)];

    private static string Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "AirwayGuard.sln")))
            {
                return Path.Combine(folder.FullName, "fhir-samples");
            }
        }

        throw new DirectoryNotFoundException("No folder above the tests holds AirwayGuard.sln.");
    }
}
