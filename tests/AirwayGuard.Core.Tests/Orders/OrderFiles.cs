namespace AirwayGuard.Core.Tests.Orders;

/// <summary>Where the invented orders lie.</summary>
internal static class OrderFiles
{
    public static string Page => Path.Combine(Root(), "docs", "order-text.md");

    public static string PathOf(string name) => Path.Combine(Root(), "tests", "AirwayGuard.Core.Tests", "Orders", name + ".jsonl");

    private static string Root()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "AirwayGuard.sln")))
            {
                return folder.FullName;
            }
        }

        throw new DirectoryNotFoundException("No folder above the tests holds AirwayGuard.sln.");
    }
}
