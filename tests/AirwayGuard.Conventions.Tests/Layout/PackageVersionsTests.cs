using System.Xml.Linq;

namespace AirwayGuard.Conventions.Tests.Layout;

/// <summary>One place for versions, and nothing in it that nobody uses.</summary>
public class PackageVersionsTests
{
    private const string Props = "src/Directory.Packages.props";

    private static readonly XElement Versions = XElement.Parse(Repository.Read(Props));

    private static IEnumerable<XElement> BuildFiles => Repository.Under("src", "tests")
        .Where(file => file != Props && Path.GetExtension(file) is ".csproj" or ".props" or ".targets")
        .Select(file => XElement.Parse(Repository.Read(file)));

    [Fact]
    public void EveryVersion_IsReferencedByAProject_OrIsALabelledPin()
    {
        var referenced = BuildFiles.Descendants("PackageReference").Select(Include).ToHashSet(StringComparer.Ordinal);
        Assert.NotEmpty(referenced);
        Rule.Holds(
            $"Nothing references these packages of {Props} (a pin for a transitive version belongs into a group labelled as one):",
            Versions.Elements("ItemGroup").Where(group => !IsPins(group)).Elements("PackageVersion").Select(Include).Where(id => !referenced.Contains(id)));
    }

    [Fact]
    public void APin_SaysWhyItIsThere() =>
        Assert.All(Versions.Elements("ItemGroup").Where(IsPins), group => Assert.True(group.Attribute("Label")!.Value.Length > "Pins ".Length));

    [Fact]
    public void ABuildFile_NamesNoVersionOfItsOwn() =>
        Rule.Holds(
            $"Versions belong into {Props}:",
            BuildFiles.Descendants("PackageReference").Where(reference => (reference.Attribute("Version") ?? reference.Attribute("VersionOverride")) is not null).Select(Include));

    [Fact]
    public void AVersion_IsOneVersion_AndNotARange() =>
        Rule.Holds(
            "Float or range:",
            Versions.Descendants("PackageVersion").Where(version => !version.Attribute("Version")!.Value.All(sign => char.IsAsciiLetterOrDigit(sign) || sign is '.' or '-')).Select(Include));

    private static bool IsPins(XElement group) => group.Attribute("Label")?.Value.StartsWith("Pins", StringComparison.Ordinal) == true;

    private static string Include(XElement element) => element.Attribute("Include")?.Value ?? "";
}
