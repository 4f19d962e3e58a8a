namespace AirwayGuard.Conventions.Tests.Layout;

/// <summary>Names that every shell, archive and file system keeps as they are.</summary>
public class FileNamesTests
{
    private static readonly string[] DrawerNames = ["Utils", "Helpers", "Helper", "Manager", "Common", "Misc"];

    [Fact]
    public void AName_IsPlainAscii() =>
        Rule.Holds(
            "Use letters, digits, dot, hyphen and underscore only:",
            Repository.Files.Where(file => !file.All(sign => char.IsAsciiLetterOrDigit(sign) || sign is '/' or '.' or '-' or '_')));

    [Fact]
    public void NoTwoNames_DifferInCaseOnly() =>
        Rule.Holds(
            "One of these is lost where case does not count:",
            Repository.Files.GroupBy(file => file, StringComparer.OrdinalIgnoreCase).Where(same => same.Count() > 1).Select(same => string.Join(", ", same)));

    [Fact]
    public void NoFileOrFolder_IsADrawerForAnything() =>
        Rule.Holds(
            "Name it for what it is about:",
            Repository.CSharp("src", "tests").Where(file => Path.ChangeExtension(file, null).Split('/').Any(part => DrawerNames.Any(name => part == name || part.EndsWith(name, StringComparison.Ordinal)))));
}
