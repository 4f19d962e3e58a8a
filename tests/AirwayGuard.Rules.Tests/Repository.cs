namespace AirwayGuard.Rules.Tests;

/// <summary>Where the documents lie that tests compare or write.</summary>
internal static class Repository
{
    public static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "AirwayGuard.sln")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException("The tests do not run inside the repository.");
        }

        return folder.FullName;
    }
}
