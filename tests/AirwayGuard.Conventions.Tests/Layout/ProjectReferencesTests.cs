namespace AirwayGuard.Conventions.Tests.Layout;

/// <summary>Who may see whom: the rooms of the map in DEVELOPERS.md.</summary>
public class ProjectReferencesTests
{
    private const string Core = "AirwayGuard.Core", Rules = "AirwayGuard.Rules", Fhir = "AirwayGuard.Fhir", Storage = "AirwayGuard.Storage";
    private const string Worker = "AirwayGuard.Worker", Sandbox = "AirwayGuard.Sandbox", Host = "AirwayGuard.Host";

    private static readonly Dictionary<string, string[]> Allowed = new(StringComparer.Ordinal)
    {
        [Core] = [],
        [Rules] = [Core],
        [Fhir] = [Core],
        [Storage] = [Core],
        [Worker] = [Core, Fhir, Rules, Storage],
        [Sandbox] = [],
        [Host] = [Core, Fhir, Rules, Sandbox, Storage, Worker],
    };

    public static TheoryData<string> Rooms => [.. Allowed.Keys];

    [Fact]
    public void TheRoomsAreTheOnesOnTheMap() =>
        Assert.Equal(Allowed.Keys.Order(StringComparer.Ordinal), ProjectFile.In("src").Select(project => project.Name).Order(StringComparer.Ordinal), StringComparer.Ordinal);

    [Theory]
    [MemberData(nameof(Rooms))]
    public void ARoom_ReferencesExactlyTheRoomsItMaySee(string room)
    {
        var project = ProjectFile.In("src").Single(project => project.Name == room);
        Assert.Equal(Allowed[room], project.Projects.Order(StringComparer.Ordinal), StringComparer.Ordinal);
    }

    [Fact]
    public void Core_HasNoPackageAndNoFramework()
    {
        var core = ProjectFile.In("src").Single(project => project.Name == Core);
        Assert.Empty(core.Packages);
        Assert.False(core.IsWeb);
    }

    [Fact]
    public void TheHostingPackage_IsHeldByAPlainLibraryOnly()
    {
        const string Hosting = "Microsoft.Extensions.Hosting";
        var holders = ProjectFile.In("src").Where(project => project.Packages.Contains(Hosting, StringComparer.Ordinal)).ToList();
        Assert.Equal(Worker, Assert.Single(holders).Name);
        Rule.Holds("A web project has the host from the shared framework; the package beside it is an error (NU1510):", holders.Where(project => project.IsWeb).Select(project => project.File));
    }

    [Fact]
    public void TestsOfOneRoom_AreInTheSolution_OrRunByNameInCi()
    {
        var solution = Repository.Read("AirwayGuard.sln");
        var ci = Repository.Read(".ci/run");
        Rule.Holds(
            "Nothing runs the tests of:",
            ProjectFile.In("tests").Where(project => project.Name.EndsWith(".Tests", StringComparison.Ordinal))
                .Where(project => !solution.Contains($"\"{project.Name}\"", StringComparison.Ordinal) && !ci.Contains(project.File, StringComparison.Ordinal))
                .Select(project => project.File));
    }
}
