namespace AirwayGuard.Conventions.Tests.Sources;

/// <summary>Nothing in the repository depends on, or tells of, the machine it was written on.</summary>
public class MachineTracesTests
{
    [Theory]
    [InlineData("/wo" + "rk/")]
    [InlineData("/ho" + "me/")]
    [InlineData("/ro" + "ot/")]
    [InlineData("/Us" + "ers/")]
    [InlineData(@"C:\Us" + "ers")]
    [InlineData("/tmp/ho" + "use")]
    public void NoFile_NamesAPathOfOneMachine(string path) =>
        Rule.Holds($"{path}:", TextFile.All.SelectMany(file => file.LinesWith(path)));

    [Theory]
    [InlineData("nuget" + ".org")]
    [InlineData("v3/index" + ".json")]
    [InlineData("pkgs.dev." + "azure")]
    [InlineData("artifact" + "ory")]
    [InlineData("npmjs" + ".org")]
    [InlineData("pypi" + ".org")]
    [InlineData("<package" + "Sources")]
    public void NoFile_NamesAPackageRegistry(string host) =>
        Rule.Holds($"{host}:", TextFile.All.SelectMany(file => file.LinesWith(host)));
}
