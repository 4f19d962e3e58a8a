namespace AirwayGuard.Conventions.Tests.Documents;

/// <summary>A setting that a document names is read by the service.</summary>
public class DocumentSettingsTests
{
    [Fact]
    public void EverySetting_IsReadByTheService() =>
        Rule.Holds(
            "Named in a document and read nowhere in src:",
            Document.All.SelectMany(document => Settings.In(document.Text).Distinct(StringComparer.Ordinal)
                .Where(key => !Settings.Exists(key)).Select(key => $"{document.File}: {key}")));

    [Fact]
    public void ASettingInBothSpellings_IsSeen() =>
        Assert.Equal(
            ["AirwayGuard:WriteBack:MaxAttempts", "AirwayGuard:WriteBack", "AirwayGuard:WriteBack:LeaseSeconds"],
            Settings.In("`AirwayGuard:WriteBack:MaxAttempts`, AirwayGuard:WriteBack:* and AirwayGuard__WriteBack__LeaseSeconds=60"),
            StringComparer.Ordinal);

    [Theory]
    [InlineData("AirwayGuard:WriteBack:MaxAttempts", true)]
    [InlineData("AirwayGuard:WriteBack", true)]
    [InlineData("AirwayGuard:WriteBack:Invented", false)]
    [InlineData("AirwayGuard:Invented", false)]
    public void ASettingExists_WhereATypeOfOptionsHasIt(string key, bool exists) => Assert.Equal(exists, Settings.Exists(key));
}
