namespace AirwayGuard.Conventions.Tests.Documents;

/// <summary>The map for contributors shows every room, and nothing is built beside it.</summary>
public class DeveloperMapTests
{
    private const string Map = "DEVELOPERS.md";

    [Fact]
    public void EveryFolderOfARoom_HasItsRow()
    {
        var folders = Repository.CSharp("src").Select(file => file.Split('/')).Where(parts => parts.Length > 3)
            .Select(parts => string.Join('/', parts.Take(3))).Distinct(StringComparer.Ordinal).ToList();
        Assert.NotEmpty(folders);
        var rows = Repository.Read(Map).Split('\n');
        Rule.Holds(
            $"Say in the map of {Map} what lives in:",
            folders.Where(folder => !rows.Any(row => row.StartsWith($"| `{folder}` | ", StringComparison.Ordinal))));
    }
}
