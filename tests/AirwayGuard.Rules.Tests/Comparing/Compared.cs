namespace AirwayGuard.Rules.Tests.Comparing;

/// <summary>What <c>rules compare</c> prints of two documents.</summary>
internal static class Compared
{
    public static string[] Lines(RuleSetReading from, RuleSetReading to) => Text(from, to, asJson: false).TrimEnd().Split('\n');

    public static string[] Lines(string from, string to) => Lines(Documents.Read(from), Documents.Read(to));

    public static string Text(RuleSetReading from, RuleSetReading to, bool asJson)
    {
        using var output = new StringWriter { NewLine = "\n" };
        using var errors = new StringWriter { NewLine = "\n" };
        Assert.Equal(0, RulesCompare.Write(from, to, asJson, output, errors));
        Assert.Empty(errors.ToString());
        return output.ToString();
    }

    /// <summary>Lines of changes and of what stays, without what limits rest on and how words were.</summary>
    public static string[] Sentences(string[] lines) => [.. lines.Where(line => line.StartsWith("  ", StringComparison.Ordinal) && line[2] != ' ').Select(line => line.Trim())];
}
