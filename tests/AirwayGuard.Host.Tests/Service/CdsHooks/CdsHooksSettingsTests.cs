using System.Text;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Host.Service;
using AirwayGuard.Host.Service.CdsHooks;
using Microsoft.Extensions.Configuration;
using Xunit;

namespace AirwayGuard.Host.Tests.Service.CdsHooks;

/// <summary>Settings of CDS Hooks, which hold a list of objects.</summary>
public sealed class CdsHooksSettingsTests
{
    private const string Root = "AirwayGuard:CdsHooks", First = $"{Root}:Clients:0";

    private static readonly string[] Whole = [$"{First}:Issuer=https://ehr.example.org", $"{First}:KeySet=https://ehr.example.org/jwks.json"];

    [Fact]
    public void WithoutSettings_NobodyIsNamed_AndTheDefaultsHold()
    {
        var options = new CdsHooksOptions();

        Assert.Empty(options.Clients);
        Assert.Null(options.Address);
        Assert.Equal((60, 200), (options.ClockSkewSeconds, options.MostASecond));
        Assert.Empty(ProblemsOf());
    }

    [Fact]
    public void AWholeSection_IsRead()
    {
        const string Json = """
            {"AirwayGuard":{"CdsHooks":{"Address":"https://ag.hosp.example.org","ClockSkewSeconds":30,"MostASecond":50,"PolicyName":"Suction policy","PolicyUrl":"https://hosp.example.org/policy",
            "Clients":[{"Issuer":"https://ehr.example.org","KeySet":"https://ehr.example.org/jwks.json"},{"Issuer":"test","KeyFile":"keys.json"}]}}}
            """;
        using var text = new MemoryStream(Encoding.UTF8.GetBytes(Json));
        var configuration = new ConfigurationBuilder().AddJsonStream(text).Build();

        Assert.Empty(ServiceSettings.ProblemsOf(configuration));
        var options = configuration.GetSection(CdsHooksOptions.Section).Get<CdsHooksOptions>()!;
        Assert.Equal(["https://ehr.example.org", "test"], options.Clients.Select(client => client.Issuer), StringComparer.Ordinal);
        Assert.Equal("keys.json", options.Clients[1].KeyFile);
    }

    [Fact]
    public void AnEmptyListInJson_IsNobody()
    {
        using var text = new MemoryStream(Encoding.UTF8.GetBytes("""{"AirwayGuard":{"CdsHooks":{"Clients":[]}}}"""));

        Assert.Empty(ServiceSettings.ProblemsOf(new ConfigurationBuilder().AddJsonStream(text).Build()));
    }

    [Theory]
    [InlineData($"{Root}:ClockSkewSeconds=301", "AG1001", $"{Root}:ClockSkewSeconds", "it takes 0 to 300")]
    [InlineData($"{Root}:ClockSkewSeconds=-1", "AG1001", $"{Root}:ClockSkewSeconds", "it takes 0 to 300")]
    [InlineData($"{Root}:MostASecond=0", "AG1001", $"{Root}:MostASecond", "it takes 1 to 100000")]
    [InlineData($"{Root}:MostASecond=100001", "AG1001", $"{Root}:MostASecond", "it takes 1 to 100000")]
    [InlineData($"{Root}:MostASecond=many", "AG1001", $"{Root}:MostASecond", "the value is no whole number")]
    [InlineData($"{Root}:PolicyName=", "AG1001", $"{Root}:PolicyName", "it takes 1 to 200 characters")]
    [InlineData($"{Root}:PolicyUrl=policy", "AG1001", $"{Root}:PolicyUrl", "it takes an absolute http or https address")]
    [InlineData($"{Root}:PolicyUrl=javascript:alert(1)", "AG1001", $"{Root}:PolicyUrl", "it takes an absolute http or https address")]
    [InlineData($"{Root}:Address=here", "AG1001", $"{Root}:Address", "it takes an absolute http or https address without query, fragment or user")]
    [InlineData($"{Root}:Address=https://ag.example.org/?a", "AG1001", $"{Root}:Address", "it takes an absolute http or https address without query, fragment or user")]
    [InlineData($"{Root}:Address=https://ag.example.org/#a", "AG1001", $"{Root}:Address", "it takes an absolute http or https address without query, fragment or user")]
    [InlineData($"{Root}:Address=https://a@ag.example.org", "AG1001", $"{Root}:Address", "it takes an absolute http or https address without query, fragment or user")]
    [InlineData($"{Root}:Adress=https://ag.example.org", "AG1011", $"{Root}:Adress", "nothing reads this setting")]
    [InlineData($"{First}:Jku=x", "AG1011", $"{First}:Jku", "nothing reads this setting")]
    [InlineData($"{First}:KeySet:0=x", "AG1011", $"{First}:KeySet:0", "nothing reads this setting")]
    [InlineData($"{First}:KeySet=", "AG1001", $"{First}:KeySet", "the value is no address")]
    [InlineData($"{First}:KeySet=https://[", "AG1001", $"{First}:KeySet", "the value is no address")]
    [InlineData($"{First}:KeySet=jwks.json", "AG1001", $"{First}:KeySet", "it takes an absolute https address without fragment or user; http on loopback only")]
    [InlineData($"{First}:KeySet=http://ehr.example.org/jwks.json", "AG1001", $"{First}:KeySet", "it takes an absolute https address without fragment or user; http on loopback only")]
    [InlineData($"{First}:KeySet=https://a@ehr.example.org/jwks.json", "AG1001", $"{First}:KeySet", "it takes an absolute https address without fragment or user; http on loopback only")]
    [InlineData($"{First}:KeySet=file:///etc/keys", "AG1001", $"{First}:KeySet", "it takes an absolute https address without fragment or user; http on loopback only")]
    [InlineData($"{First}:Issuer=", "AG1001", $"{First}:Issuer", "it takes the iss of the client's tokens, exactly")]
    public void AWrongSetting_IsToldOnce_WithItsPlace(string setting, string code, string where, string why)
    {
        var problem = Assert.Single(ProblemsOf([.. Whole, setting]));

        Assert.Equal((code, where, why), (problem.Code.Id, problem.Where, problem.Why));
    }

    [Theory]
    [InlineData($"{Root}:Clients=https://ehr.example.org", $"{Root}:Clients")]
    [InlineData($"{First}=https://ehr.example.org", First)]
    public void APlainValue_InThePlaceOfTheListOrOfAClient_IsTold(string setting, string where)
    {
        var problem = Assert.Single(ProblemsOf(setting));

        Assert.Equal(("AG1011", where), (problem.Code.Id, problem.Where));
    }

    [Theory]
    [InlineData("http://127.0.0.1:5000/jwks.json")]
    [InlineData("http://localhost/jwks.json")]
    [InlineData("https://ehr.example.org/jwks.json?tenant=1")]
    public void AKeySet_MayBeOnLoopback_AndHaveAQuery(string address) => Assert.Empty(ProblemsOf(Whole[0], $"{First}:KeySet={address}"));

    [Fact]
    public void AClientWithoutAnything_MissesItsIssuer() =>
        Assert.Equal([$"{Root}:Clients:3:Issuer"], ProblemsOf([.. Whole, $"{Root}:Clients:3:KeyFile=keys.json"]).Select(problem => problem.Where), StringComparer.Ordinal);

    [Fact]
    public void TwoClientsOfOneIssuer_AreTold_AsTheSettingsNumberThem()
    {
        var problem = Assert.Single(ProblemsOf([.. Whole, $"{Root}:Clients:7:Issuer=https://ehr.example.org", $"{Root}:Clients:7:KeyFile=keys.json"]));

        Assert.Equal(("AG1001", $"{Root}:Clients:7:Issuer"), (problem.Code.Id, problem.Where));
    }

    [Fact]
    public void IssuersThatDifferInCase_AreTwo() => Assert.Empty(ProblemsOf([.. Whole, $"{Root}:Clients:1:Issuer=https://EHR.example.org", $"{Root}:Clients:1:KeyFile=keys.json"]));

    [Fact]
    public void EveryClient_IsChecked_BesidesWhatElseIsWrong() =>
        Assert.Equal(
            [$"{Root}:Clients:0:KeySet", $"{Root}:Clients:1:Issuer", $"{Root}:MostASecond"],
            ProblemsOf($"{First}:Issuer=a", $"{Root}:Clients:1:KeyFile=b", $"{Root}:MostASecond=0").Select(problem => problem.Where).Order(StringComparer.Ordinal), StringComparer.Ordinal);

    [Theory]
    [InlineData("https://ag.hosp.example.org")]
    [InlineData("https://ag.hosp.example.org/")]
    public void TheAddressOfACall_IsTheConfiguredOneWithThePath_HoweverItEnds(string root) =>
        Assert.Equal("https://ag.hosp.example.org/cds-services", HookAddress.Of(new Uri(root), "/cds-services"));

    private static IReadOnlyList<Problem> ProblemsOf(params string[] settings) =>
        ServiceSettings.ProblemsOf(new ConfigurationBuilder().AddInMemoryCollection(settings.Select(one => one.Split('=', 2)).Select(one => new KeyValuePair<string, string?>(one[0], one[1]))
            .GroupBy(one => one.Key, StringComparer.Ordinal).Select(same => same.Last())).Build());
}
