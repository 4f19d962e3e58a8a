using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Host.Service;
using AirwayGuard.Host.Tests.Commands;
using Microsoft.Extensions.Configuration;
using Xunit;

namespace AirwayGuard.Host.Tests.Service;

public sealed class ServicePlanTests
{
    private static readonly (string, string) Remote = ("AirwayGuard:Fhir:BaseUrl", "https://ehr.example.org/fhir");
    private static readonly (string, string) Folder = ("AirwayGuard:DataDirectory", "data");

    [Fact]
    public void NothingConfigured_IsTheDemo_LiveOnItsOwnServer()
    {
        var plan = Planned();

        Assert.True(plan.IsDemo);
        Assert.True(plan.Basis.Live);
        Assert.Equal("http://127.0.0.1:8480/", plan.Listen.AbsoluteUri);
        Assert.Equal("http://127.0.0.1:8480/fhir", plan.FhirBase.AbsoluteUri);
        Assert.Equal("strict-ranges", plan.Basis.Rules.Name);
    }

    [Fact]
    public void TheDemo_HasAFolderForEachPort()
    {
        var first = Planned(("urls", "http://127.0.0.1:8480")).DataFolder;
        var second = Planned(("urls", "http://127.0.0.1:8481")).DataFolder;

        Assert.EndsWith("demo-8480", first, StringComparison.Ordinal);
        Assert.EndsWith("demo-8481", second, StringComparison.Ordinal);
    }

    [Fact]
    public void AServerConfigured_IsUsedAlone_AndSilentUntilPromoted()
    {
        var silent = Planned(Remote, Folder);
        var live = Planned(Remote, Folder, ("AirwayGuard:Mode", "live"));

        Assert.False(silent.IsDemo);
        Assert.False(silent.Basis.Speaks);
        Assert.Equal("https://ehr.example.org/fhir", silent.FhirBase.AbsoluteUri);
        Assert.Equal("data", silent.DataFolder);
        Assert.True(live.Basis.Live);
        Assert.False(Planned(Remote, Folder, ("AirwayGuard:Mode", "silent")).Basis.Live);
        Assert.False(live.Basis.Speaks, "until its promotion stands in the ledger");
    }

    [Theory]
    [InlineData("https://ehr.example.org/fhir/", "https://ehr.example.org/fhir")]
    [InlineData("https://ehr.example.org/fhir//", "https://ehr.example.org/fhir")]
    [InlineData("https://ehr.example.org/", "https://ehr.example.org/")]
    public void AServersAddress_IsTheSameWithASlashAtItsEnd(string given, string used) =>
        Assert.Equal(used, Planned(("AirwayGuard:Fhir:BaseUrl", given), Folder).FhirBase.AbsoluteUri);

    [Fact]
    public void WhatIsNew_IsBoundedWhereASiteSaysSo_AndTheBoundIsPartOfTheBasis()
    {
        Assert.Equal(TimeSpan.MaxValue, Planned(Remote, Folder).Basis.NewFor);
        Assert.Equal(TimeSpan.MaxValue, Planned().Basis.NewFor);
        Assert.Equal(TimeSpan.FromHours(12), Planned(Remote, Folder, ("AirwayGuard:NewForHours", "12")).Basis.NewFor);
        Assert.NotEqual(Planned(Remote, Folder).Basis.Names.BasisSha256, Planned(Remote, Folder, ("AirwayGuard:NewForHours", "12")).Basis.Names.BasisSha256, StringComparer.Ordinal);
    }

    [Fact]
    public void TheDemoOnly_ReadsTheInventedRowsOfItsWard() =>
        Assert.NotEqual(Planned().Map.Sha256, Planned(Remote, Folder).Map.Sha256, StringComparer.Ordinal);

    [Theory]
    [InlineData("AirwayGuard:Mode=loud", "AG1001", "AirwayGuard:Mode")]
    [InlineData("AirwayGuard:UnknownAge=adult", "AG1001", "AirwayGuard:UnknownAge")]
    [InlineData("AirwayGuard:LateAfterMinutes=0", "AG1001", "AirwayGuard:LateAfterMinutes")]
    [InlineData("AirwayGuard:LateAfterMinutes=soon", "AG1001", "AirwayGuard:LateAfterMinutes")]
    [InlineData("AirwayGuard:NewForHours=0", "AG1001", "AirwayGuard:NewForHours")]
    [InlineData("AirwayGuard:NewForHours=87601", "AG1001", "AirwayGuard:NewForHours")]
    [InlineData("AirwayGuard:NewForHours=always", "AG1001", "AirwayGuard:NewForHours")]
    [InlineData("AirwayGuard:AllowOtherAddresses=perhaps", "AG1001", "AirwayGuard:AllowOtherAddresses")]
    [InlineData("AirwayGuard:WardEnd=yesterday", "AG1001", "AirwayGuard:WardEnd")]
    [InlineData("AirwayGuard:NotifyAddress=here", "AG1001", "AirwayGuard:NotifyAddress")]
    [InlineData("AirwayGuard:Log=xml", "AG1001", "AirwayGuard:Log")]
    [InlineData("AirwayGuard:Intake:QuickSeconds=0", "AG1001", "AirwayGuard:Intake:QuickSeconds")]
    [InlineData("AirwayGuard:WriteBack:MaxAttempts=21", "AG1001", "AirwayGuard:WriteBack:MaxAttempts")]
    [InlineData("AirwayGuard:WriteBack:Organization=Patient/1", "AG1001", "AirwayGuard:WriteBack:Organization")]
    [InlineData("AirwayGuard:Fhir:BaseUrl=ftp://ehr.example.org", "AG1001", "AirwayGuard:Fhir:BaseUrl")]
    [InlineData("AirwayGuard:Fhir:BaseUrl=http://ehr.example.org/fhir", "AG1001", "AirwayGuard:Fhir:BaseUrl")]
    [InlineData("AirwayGuard:Fhir:BaseUrl=https://ehr.example.org/fhir", "AG1001", "AirwayGuard:DataDirectory")]
    [InlineData("AirwayGuard:Moode=live", "AG1011", "AirwayGuard:Moode")]
    [InlineData("AirwayGuard:Intake:Quick=1", "AG1011", "AirwayGuard:Intake:Quick")]
    [InlineData("AirwayGuard:Mode:0=live", "AG1011", "AirwayGuard:Mode:0")]
    [InlineData("AirwayGuard:Rules=nope", "AG3001", "nope")]
    [InlineData("AirwayGuard:Rules=", "AG3001", "rule set")]
    [InlineData("AirwayGuard:Maps:0=", "AG2208", "map")]
    [InlineData("AirwayGuard:Maps:0=nope.json", "AG2208", "nope.json")]
    [InlineData("urls=http://192.0.2.1:80", "AG1002", "--urls")]
    [InlineData("urls=http://127.0.0.1:1;http://127.0.0.1:2", "AG1001", "--urls")]
    [InlineData("urls=127.0.0.1:8480", "AG1001", "--urls")]
    public void AWrongSetting_IsToldOnce_WithCodeAndPlace(string setting, string code, string where)
    {
        var parts = setting.Split('=', 2);

        var problem = Assert.Single(ProblemsOf((parts[0], parts[1])));

        Assert.Equal(code, problem.Code.Id);
        Assert.Equal(where, problem.Where);
        Assert.NotEmpty(problem.Code.Advice);
    }

    [Theory]
    [InlineData("AirwayGuard:Mode=loud", "it takes silent or live")]
    [InlineData("AirwayGuard:UnknownAge=adult", "it takes cannot-tell or strictest-band")]
    [InlineData("AirwayGuard:Log=xml", "it takes readable or compact")]
    [InlineData("AirwayGuard:Intake:SubscriptionStatus=off", "it takes requested or active")]
    [InlineData("AirwayGuard:Intake:PageSize=-5", "it takes 1 to 1000")]
    [InlineData("AirwayGuard:NewForHours=0", "it takes 1 to 87600")]
    public void ASettingThatTakesAFewWordsOrARange_NamesThem(string setting, string why)
    {
        var parts = setting.Split('=', 2);

        Assert.Equal(why, Assert.Single(ProblemsOf((parts[0], parts[1]))).Why);
    }

    [Fact]
    public void SeveralWrongSettings_AreToldAtOnce() =>
        Assert.Equal(
            ["AG1011", "AG1001", "AG1001"],
            ProblemsOf(("AirwayGuard:Moode", "live"), ("AirwayGuard:Log", "xml"), ("AirwayGuard:Intake:PageSize", "many")).Select(problem => problem.Code.Id), StringComparer.Ordinal);

    [Fact]
    public void APipe_AsRulesOrMap_IsRefusedUnopened()
    {
        using var folder = new GivenFolder();
        Pipes.Make(folder.Of("pipe"));

        Assert.Equal(["AG2002"], ProblemsOf(("AirwayGuard:Rules", folder.Of("pipe"))).Select(problem => problem.Code.Id), StringComparer.Ordinal);
        Assert.Equal(["AG2002"], ProblemsOf(("AirwayGuard:Maps:0", folder.Of("pipe"))).Select(problem => problem.Code.Id), StringComparer.Ordinal);
    }

    private static ServicePlan Planned(params (string Name, string Value)[] settings)
    {
        var (plan, problems) = ServicePlan.Of(Configured(settings));
        Assert.Empty(problems);
        return plan!;
    }

    private static IReadOnlyList<Problem> ProblemsOf(params (string Name, string Value)[] settings)
    {
        var (plan, problems) = ServicePlan.Of(Configured(settings));
        Assert.Null(plan);
        return problems;
    }

    private static IConfigurationRoot Configured((string Name, string Value)[] settings) =>
        new ConfigurationBuilder().AddInMemoryCollection(settings.Select(one => new KeyValuePair<string, string?>(one.Name, one.Value))).Build();
}
