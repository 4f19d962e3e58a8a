using System.Security.Cryptography;
using System.Text.Json.Nodes;
using AirwayGuard.Host.Service.CdsHooks;
using Xunit;

namespace AirwayGuard.Host.Tests.Service.CdsHooks;

/// <summary>Who is let in by a token, and what is said to everybody else.</summary>
public sealed class TokenCheckTests : IDisposable
{
    private readonly GivenCheck _given = new();

    public void Dispose() => _given.Dispose();

    [Fact]
    public async Task ATokenSignedWithES384_LetsItsIssuerIn_AndIsMarkedUntilItCannotBeSentAgain()
    {
        var caller = await _given.AskAsync(Token.Of(SigningKey.First).Claim("jti", "once").Sent());

        Assert.Null(caller.Refusal);
        Assert.Equal(GivenCheck.Issuer, caller.Issuer);
        Assert.Equal(new Core.Ports.UsedToken(GivenCheck.Issuer, "once", GivenCheck.Now.AddSeconds(360)), Assert.Single(_given.Used));
    }

    [Fact]
    public async Task ATokenSignedWithRS384_LetsItsIssuerIn() => Assert.Null(await _given.CodeOf(Token.Of(SigningKey.Rsa)));

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("Bearer")]
    [InlineData("Bearer   ")]
    [InlineData("Basic dXNlcjpwYXNz")]
    public async Task WithoutABearerToken_NobodyIsLetIn(string? authorization) => Assert.Equal("AG8201", await _given.CodeOf(authorization));

    [Fact]
    public async Task TheSchemesName_HasNoCase() =>
        Assert.Null(await _given.CodeOf("bEARER " + Token.Of(SigningKey.First).Sent()["Bearer ".Length..]));

    [Theory]
    [InlineData("none")]
    [InlineData("None")]
    [InlineData("HS384")]
    [InlineData("ES256")]
    [InlineData("RS256")]
    [InlineData("PS384")]
    [InlineData("ES512")]
    [InlineData("es384")]
    public async Task AnotherAlgorithm_IsRefusedBeforeAnyKeyIsLookedUp(string algorithm)
    {
        Assert.Equal("AG8203", await _given.CodeOf(Token.Of(SigningKey.First).Head("alg", algorithm)));
        Assert.Empty(_given.Server.Asked);
    }

    [Fact]
    public async Task NoneWithoutASignature_IsRefused()
    {
        Assert.Equal("AG8203", await _given.CodeOf(Token.Of(SigningKey.First).Head("alg", "none").Sent(_ => [])));
        Assert.Equal("AG8207", await _given.CodeOf(Token.Of(SigningKey.First).Sent(_ => [])));
    }

    // RFC 8725 §2.1: a public key taken for a shared secret.
    [Fact]
    public async Task APublicKeyTakenAsASecret_SignsNothing()
    {
        byte[] Sign(byte[] data) => HMACSHA384.HashData(SigningKey.Rsa.PublicBytes(), data);

        Assert.Equal("AG8203", await _given.CodeOf(Token.Of(SigningKey.Rsa).Head("alg", "HS384").Sent(Sign)));
        Assert.Equal("AG8207", await _given.CodeOf(Token.Of(SigningKey.Rsa).Sent(Sign)));
        Assert.Empty(_given.Used);
    }

    [Fact]
    public async Task AKeyOfP256_DoesNotSignES384()
    {
        var key = SigningKey.OfP256("small", HashAlgorithmName.SHA384);
        _given.Server.Set = SigningKey.Set(key.Jwk());

        Assert.Equal("AG8203", await _given.CodeOf(Token.Of(key).Head("alg", "ES384")));
    }

    [Fact]
    public async Task AnAlgorithm_FitsTheKindOfTheKey()
    {
        Assert.Equal("AG8203", await _given.CodeOf(Token.Of(SigningKey.First).Head("alg", "RS384")));
        Assert.Equal("AG8203", await _given.CodeOf(Token.Of(SigningKey.Rsa).Head("alg", "ES384")));
    }

    [Theory]
    [InlineData(2040, "AG8203")]
    [InlineData(2048, null)]
    public async Task AnRsaKey_HasTwoThousandAndFortyEightBits(int bits, string? code)
    {
        var key = SigningKey.Rs384("sized", bits);
        _given.Server.Set = SigningKey.Set(key.Jwk());

        Assert.Equal(code, await _given.CodeOf(Token.Of(key)));
    }

    // RFC 7518 §3.4: R and S of 48 octets each; the form of X.509 is another.
    [Fact]
    public async Task ASignatureInDer_IsRefused()
    {
        Assert.Equal(96, SigningKey.First.Sign([1]).Length);
        Assert.Equal("AG8207", await _given.CodeOf(Token.Of(SigningKey.First).Sent(SigningKey.First.SignDer)));
    }

    [Fact]
    public async Task ASignatureOfAnotherKey_OrOverSomethingElse_DoesNotHold()
    {
        Assert.Equal("AG8207", await _given.CodeOf(Token.Of(SigningKey.First).Sent(SigningKey.Second.Sign)));
        Assert.Equal("AG8207", await _given.CodeOf(Token.Of(SigningKey.First).Sent(data => SigningKey.First.Sign([.. data, 0]))));
        Assert.Equal("AG8207", await _given.CodeOf(Token.Of(SigningKey.First).Sent(_ => new byte[96])));
        Assert.Empty(_given.Used);
    }

    [Theory]
    [InlineData("JWT", null)]
    [InlineData("jwt", null)]
    [InlineData("at+jwt", "AG8202")]
    public async Task TheType_IsJwtWhereItIsNamed(string type, string? code) => Assert.Equal(code, await _given.CodeOf(Token.Of(SigningKey.First).Head("typ", type)));

    [Fact]
    public async Task TheType_MayBeLeftOut() => Assert.Null(await _given.CodeOf(Token.Of(SigningKey.First).Head("typ", null)));

    [Fact]
    public async Task AKeyMustBeNamed_AndExtensionsAreNotTaken()
    {
        Assert.Equal("AG8202", await _given.CodeOf(Token.Of(SigningKey.First).Head("kid", null)));
        Assert.Equal("AG8202", await _given.CodeOf(Token.Of(SigningKey.First).Head("kid", "")));
        Assert.Equal("AG8202", await _given.CodeOf(Token.Of(SigningKey.First).Head("kid", 7)));
        Assert.Equal("AG8202", await _given.CodeOf(Token.Of(SigningKey.First).Head("crit", new JsonArray("b64"))));
        Assert.Equal("AG8202", await _given.CodeOf(Token.Of(SigningKey.First).Head("crit", new JsonArray())));
    }

    [Theory]
    [InlineData("https://other.example.org")]
    [InlineData("https://EHR.example.org")]
    [InlineData("https://ehr.example.org/")]
    [InlineData(" https://ehr.example.org")]
    public async Task AnIssuerThatIsNotNamedExactly_IsUnknown_AndNothingIsFetched(string issuer)
    {
        Assert.Equal("AG8204", await _given.CodeOf(Token.Of(SigningKey.First).Claim("iss", issuer)));
        Assert.Empty(_given.Server.Asked);
    }

    [Theory]
    [InlineData("https://evil.example.org/jwks.json")]
    [InlineData("https://EHR.example.org/jwks.json")]
    [InlineData("https://ehr.example.org:443/jwks.json")]
    [InlineData("https://ehr.example.org/jwks.json?x")]
    [InlineData("http://169.254.169.254/latest")]
    [InlineData("")]
    public async Task AForeignKeySet_IsRefused_AndNoRequestGoesOut(string keySet)
    {
        Assert.Equal("AG8205", await _given.CodeOf(Token.Of(SigningKey.First).Head("jku", keySet)));
        Assert.Empty(_given.Server.Asked);
    }

    [Fact]
    public async Task TheConfiguredKeySet_MayBeNamed()
    {
        Assert.Null(await _given.CodeOf(Token.Of(SigningKey.First).Head("jku", GivenCheck.KeySet)));
        Assert.Equal([GivenCheck.KeySet], _given.Server.Asked, StringComparer.Ordinal);
    }

    [Fact]
    public async Task AKeyInTheTokenItself_IsNotUsed() =>
        Assert.Equal("AG8206", await _given.CodeOf(Token.Of(SigningKey.Second).Head("jwk", SigningKey.Second.Jwk())));

    [Theory]
    [InlineData("https://ag.hosp.example.org/cds-services")]
    [InlineData("https://ag.hosp.example.org/cds-services/suction-order-sign/")]
    [InlineData("https://AG.hosp.example.org/cds-services/suction-order-sign")]
    [InlineData("http://ag.hosp.example.org/cds-services/suction-order-sign")]
    [InlineData("https://ag.hosp.example.org:443/cds-services/suction-order-sign")]
    [InlineData("")]
    public async Task ATokenForAnotherAddress_IsRefused_AndNotMarked(string audience)
    {
        Assert.Equal("AG8208", await _given.CodeOf(Token.Of(SigningKey.First).Claim("aud", audience)));
        Assert.Equal("AG8208", await _given.CodeOf(Token.Of(SigningKey.First).Claim("aud", new JsonArray(audience))));
        Assert.Empty(_given.Used);
    }

    [Fact]
    public async Task AmongSeveralAudiences_TheAddressIsEnough()
    {
        Assert.Null(await _given.CodeOf(Token.Of(SigningKey.First).Claim("aud", new JsonArray("https://other.example.org", GivenCheck.Address))));
        Assert.Equal("AG8208", await _given.CodeOf(Token.Of(SigningKey.First).Claim("aud", new JsonArray())));
    }

    [Fact]
    public async Task AToken_LetsOneCallIn()
    {
        var sent = Token.Of(SigningKey.First).Sent();

        Assert.Null(await _given.CodeOf(sent));
        Assert.Equal("AG8210", await _given.CodeOf(sent));
        Assert.Equal("AG8210", await _given.CodeOf(Token.Of(SigningKey.First).Claim("jti", _given.Used[0].Id)));
    }

    [Theory]
    [InlineData(0, "AG8202")]
    [InlineData(1, null)]
    [InlineData(256, null)]
    [InlineData(257, "AG8202")]
    public async Task TheIdOfAToken_HasOneTo256Characters(int length, string? code) =>
        Assert.Equal(code, await _given.CodeOf(Token.Of(SigningKey.First).Claim("jti", new string('x', length))));

    [Theory]
    [InlineData("iss")]
    [InlineData("aud")]
    [InlineData("exp")]
    [InlineData("iat")]
    [InlineData("jti")]
    public async Task AMissingClaim_IsToldWithItsName(string claim)
    {
        var refusal = (await _given.AskAsync(Token.Of(SigningKey.First).Claim(claim, null).Sent())).Refusal!;

        Assert.Equal(("AG8202", $"Authorization: {claim}"), (refusal.Code.Id, refusal.Where));
    }

    [Fact]
    public async Task OfAFileOfKeys_NothingIsFetched_AndTheKeySetSaysWhatMayBeNamed()
    {
        using var folder = new Commands.GivenFolder();
        var file = folder.File("keys.json", SigningKey.Set(SigningKey.First.Jwk()));
        using var both = new GivenCheck(client: new CdsClient { Issuer = GivenCheck.Issuer, KeyFile = file, KeySet = new Uri(GivenCheck.KeySet) });
        using var alone = new GivenCheck(client: new CdsClient { Issuer = GivenCheck.Issuer, KeyFile = file });

        Assert.Null(await both.CodeOf(Token.Of(SigningKey.First).Head("jku", GivenCheck.KeySet)));
        Assert.Null(await alone.CodeOf(Token.Of(SigningKey.First)));
        Assert.Equal("AG8205", await alone.CodeOf(Token.Of(SigningKey.First).Head("jku", GivenCheck.KeySet)));
        Assert.Empty(both.Server.Asked);
    }

    [Fact]
    public async Task WhileKeysAreExchanged_BothSign_AndTheOldOneEndsWhenTheSetIsReadWithoutIt()
    {
        _given.Server.Set = SigningKey.Set(SigningKey.First.Jwk(), SigningKey.Second.Jwk());
        Assert.Null(await _given.CodeOf(Token.Of(SigningKey.First)));
        Assert.Null(await _given.CodeOf(Token.Of(SigningKey.Second)));

        _given.Server.Set = SigningKey.Set(SigningKey.Second.Jwk());
        _given.Clock.Advance(TimeSpan.FromSeconds(599));
        Assert.Null(await _given.CodeOf(Token.Of(SigningKey.First).At("iat", 599).At("exp", 899)));
        Assert.Single(_given.Server.Asked);

        _given.Clock.Advance(TimeSpan.FromSeconds(1));
        Assert.Equal("AG8206", await _given.CodeOf(Token.Of(SigningKey.First).At("iat", 600).At("exp", 900)));
        Assert.Null(await _given.CodeOf(Token.Of(SigningKey.Second).At("iat", 600).At("exp", 900)));
        Assert.Equal(2, _given.Server.Asked.Count);
    }
}
