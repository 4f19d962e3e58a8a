namespace AirwayGuard.Conventions.Tests;

/// <summary>Fails with every place where a rule of the house is broken, not only the first.</summary>
internal static class Rule
{
    public static void Holds(string rule, IEnumerable<string> broken)
    {
        var places = broken.ToList();
        Assert.True(places.Count == 0, $"{rule}{Environment.NewLine}{string.Join(Environment.NewLine, places)}");
    }
}
