using System.Buffers.Text;
using System.Text;
using AirwayGuard.Host.Service.CdsHooks;
using Microsoft.IdentityModel.JsonWebTokens;
using Microsoft.IdentityModel.Tokens;
using Xunit;

namespace AirwayGuard.Host.Tests.Service.CdsHooks;

/// <summary>Keys and signatures that the standards print, and tokens that another writer makes.</summary>
public sealed class PublishedVectorsTests
{
    private const string Claims = "eyJpc3MiOiJqb2UiLA0KICJleHAiOjEzMDA4MTkzODAsDQogImh0dHA6Ly9leGFtcGxlLmNvbS9pc19yb290Ijp0cnVlfQ";

    // RFC 7515 appendix A.2.1, with a part of the private half.
    private const string A2Key = """
        {"kty":"RSA","kid":"a","n":"ofgWCuLjybRlzo0tZWJjNiuSfb4p4fAkd_wWJcyQoTbji9k0l8W26mPddxHmfHQp-Vaw-4qPCJrcS2mJPMEzP1Pt0Bm4d4QlL-yRT-SFd2lZS-pCgNMsD1W_YpRPEwOWvG6b32690r2jZ47soMZo9wGzjb_7OMg0LOL-bSf63kpaSHSXndS5z5rexMdbBYUsLA9e-KXBdQOS-UTo7WTBEMa2R2CapHg665xsmtdVMTBQY4uDZlxvb3qCo5ZwKh9kG4LT6_I5IhlJH7aGhyxXFvUK-DWNmoudF8NAco9_h9iaGNj8q2ethFkMLs91kzk2PAcDTW9gb54h4FRWyuXpoQ","e":"AQAB","d":"Eq5xpGnNCivDflJsRQBXHx1hdR1k6Ulwe2JZD50LpXyWPEAeP88vLNO97IjlA7_GQ5sLKMgvfTeXZx9SE-7YwVol2NXOoAJe46sui395IW_GO-pWJ1O0BkTGoVEn2bKVRUCgu-GjBVaYLU6f3l9kJfFNS3E0QbVdxzubSu3Mkqzjkn439X0M_V51gfpRLI9JYanrC4D4qAdGcopV_0ZHHzQlBjudU2QvXt4ehNYTCBr6XCLQUShb1juUO1ZdiYoFaFQT5Tw8bGUl_x_jTj3ccPDVZFD9pIuhLhBOneufuBiB4cS98l2SR_RQyGWSeWjnczT0QU91p1DhOVRuOopznQ"}
        """;

    private const string A2Token = $"eyJhbGciOiJSUzI1NiJ9.{Claims}.cC4hiUPoj9Eetdgtv3hF80EGrhuB__dzERat0XF9g2VtQgr9PJbu3XOiZj5RZmh7AAuHIm4Bh-0Qc_lF5YKt_O8W2Fp5jujGbds9uJdbF9CUAr7t1dnZcAcQjbKBYNX4BAynRFdiuB--f_nZLgrnbyTyWzO75vRK5h6xBArLIARNPvkSjtQBMHlb1L07Qe7K0GarZRmB_eSN9383LcOLn6_dO--xi12jzDwusC-eOkHWEsqtFZESc6BfI7noOPqvhJ1phCnvWh6IeYI2w9QOYEUipUTI8np6LbgGY9Fs98rqVt5AXLIhWkWywlVmtVrBp0igcN_IoypGlUPQGe77Rw";

    // RFC 7515 appendix A.3.1
    private const string A3Key = """
        {"kty":"EC","kid":"a","crv":"P-256","x":"f83OJ3D2xF1Bg8vub9tLe1gHMzV76e8Tus9uPHvRVEU","y":"x_FEzRu9m36HLN_tue659LNpXW6pCyStikYjKIWI5a0","d":"jpsQnnGQmL-YBIffH1136cspYG6-0iY7X1fCE9-E9LI"}
        """;

    private const string A3Token = $"eyJhbGciOiJFUzI1NiJ9.{Claims}.DtEhU3ljbEg8L38VWAfUAqOyKAM6-Xx-F4GawxaepmXFCgfTjDxw5djxLa8ISlSApmWQxfKTUJqPP3-Kg6NU1Q";

    // RFC 7517 appendix A.1
    private const string PublicSet = """
        {"keys":[{"kty":"EC","crv":"P-256","x":"MKBCTNIcKUSDii11ySs3526iDZ8AiTo7Tu6KPAqv7D4","y":"4Etl6SRW2YiLUrN5vfvVHuhp7x8PxltmWWlbbM4IFyM","use":"enc","kid":"1"},
        {"kty":"RSA","n":"0vx7agoebGcQSuuPiLJXZptN9nndrQmbXEps2aiAFbWhM78LhWx4cbbfAAtVT86zwu1RK7aPFFxuhDR1L6tSoc_BJECPebWKRXjBZCiFV4n3oknjhMstn64tZ_2W-5JsGY4Hc5n9yBXArwl93lqt7_RN5w6Cf0h4QyQ5v-65YGjQR0_FDW2QvzqY368QQMicAtaSqzs8KJZgnYb9c7d0zgdAZHzu6qMQvRL5hajrn1n91CbOpbISD08qNLyrdkt-bFTWhAI4vMQFh6WeZu0fM4lFd2NcRwr3XPksINHaQ-G_xBniIqbw0Ls1jF44-csFCur-kEgU8awapJzKnqDKgw","e":"AQAB","alg":"RS256","kid":"2011-04-29"}]}
        """;

    [Theory]
    [InlineData(A2Key, A2Token, "RS256")]
    [InlineData(A3Key, A3Token, "ES256")]
    public void ThePrintedSignatures_HoldWithTheKeysAsTheyAreReadHere_WhichHaveNoPrivateHalf(string key, string token, string algorithm)
    {
        var read = Assert.Single(Set(key)).Public;
        var parts = token.Split('.');
        using var provider = new CryptoProviderFactory().CreateForVerifying(read, algorithm);

        Assert.True(provider.Verify(Encoding.ASCII.GetBytes($"{parts[0]}.{parts[1]}"), Base64Url.DecodeFromChars(parts[2])));
        Assert.False(provider.Verify(Encoding.ASCII.GetBytes($"{parts[0]}.{parts[1]}x"), Base64Url.DecodeFromChars(parts[2])));
        Assert.False(read.HasPrivateKey);
        Assert.Null(read.D);
    }

    // RFC 6979 appendix A.2.6, P-384 with SHA-384; R and S one after the other as RFC 7518 §3.4 has them.
    [Theory]
    [InlineData(
        "sample", "94EDBB92A5ECB8AAD4736E56C691916B3F88140666CE9FA73D64C4EA95AD133C81A648152E44ACF96E36DD1E80FABE46",
        "99EF4AEB15F178CEA1FE40DB2603138F130E740A19624526203B6351D0A3A94FA329C145786E679E7B82C71A38628AC8")]
    [InlineData(
        "test", "8203B63D3C853E8D77227FB377BCF7B7B772E97892A80F36AB775D509D7A5FEB0542A7F0812998DA8F1DD3CA3CF023DB",
        "DDD0760448D42D8A43AF45AF836FCE4DE8BE06B485E9B61B827C2F13173923E06A739F040649A667BF3B828246BAA5A5")]
    public void ThePrintedSignaturesOfP384_HoldAsES384_WithTheKeyAsItIsReadHere(string message, string r, string s)
    {
        var x = Base64Url.EncodeToString(Convert.FromHexString("EC3A4E415B4E19A4568618029F427FA5DA9A8BC4AE92E02E06AAE5286B300C64DEF8F0EA9055866064A254515480BC13"));
        var y = Base64Url.EncodeToString(Convert.FromHexString("8015D9B72D7D57244EA8EF9AC0C621896708A59367F9DFB9F54CA84B3F1C9DB1288B231C3AE0D4FE7344FD2533264720"));
        var key = Assert.Single(Set($$"""{"kty":"EC","kid":"a","crv":"P-384","x":"{{x}}","y":"{{y}}"}"""));
        using var provider = new CryptoProviderFactory().CreateForVerifying(key.Public, "ES384");

        Assert.True(key.Fits("ES384"));
        Assert.True(provider.Verify(Encoding.ASCII.GetBytes(message), Convert.FromHexString(r + s)));
        Assert.False(provider.Verify(Encoding.ASCII.GetBytes(message + "."), Convert.FromHexString(r + s)));
        Assert.False(provider.Verify(Encoding.ASCII.GetBytes(message), Convert.FromHexString(s + r)));
    }

    [Theory]
    [InlineData(A2Token)]
    [InlineData(A3Token)]
    public async Task ThePrintedTokens_AreRefusedForTheirAlgorithm(string token)
    {
        using var given = new GivenCheck();

        Assert.Equal("AG8203", await given.CodeOf("Bearer " + token));
        Assert.Empty(given.Server.Asked);
    }

    // RFC 7517 appendix A.1; the name of the RSA key by its content is in RFC 7638 §3.1.
    [Fact]
    public void OfThePrintedSet_TheKeyForEncryptingIsLeftOut_AndTheOtherIsThatOne()
    {
        var key = Assert.Single(KeySetText.Read(Encoding.UTF8.GetBytes(PublicSet))!.Value);

        Assert.Equal("2011-04-29", key.Kid);
        Assert.Equal(2048, key.Bits);
        Assert.Equal("NzbLsXh8uDCcd-6MNwXF4W_7noWXFZAfHkxZsRGC9Xs", Base64Url.EncodeToString(key.Public.ComputeJwkThumbprint()));
        Assert.True(key.IsThere("2011-04-29", "RS256", GivenCheck.Now));
        Assert.False(key.IsThere("2011-04-29", "RS384", GivenCheck.Now));
    }

    // RFC 7517 appendix A.3: symmetric keys are no public ones.
    [Fact]
    public void OfThePrintedSymmetricKeys_NoneIsTaken() => Assert.Empty(Set(
        """{"kty":"oct","alg":"A128KW","k":"GawgguFyGrWKav7AX4VKUg"}""",
        """{"kty":"oct","k":"AyM1SysPpbyDfgZld3umj1qzKObwVMkoqQ-EstJQLr_T-1qS0gZH75aKtMN3Yj0iPS4hcgUuTwjAzZr1Z9CAow","kid":"HMAC key used in JWS spec Appendix A.1 example"}"""));

    [Fact]
    public async Task ATokenThatAnotherWriterMakes_IsRead()
    {
        using var given = new GivenCheck();
        using var curve = System.Security.Cryptography.ECDsa.Create(System.Security.Cryptography.ECCurve.NamedCurves.nistP384);
        var shown = JsonWebKeyConverter.ConvertFromECDsaSecurityKey(new ECDsaSecurityKey(curve) { KeyId = "theirs" });
        given.Server.Set = $$"""{"keys":[{"kty":"EC","crv":"P-384","kid":"theirs","x":"{{shown.X}}","y":"{{shown.Y}}"}]}""";
        var token = new JsonWebTokenHandler().CreateToken(new SecurityTokenDescriptor
        {
            Issuer = GivenCheck.Issuer,
            Audience = GivenCheck.Address,
            IssuedAt = GivenCheck.Now.UtcDateTime,
            NotBefore = GivenCheck.Now.UtcDateTime,
            Expires = GivenCheck.Now.UtcDateTime.AddMinutes(5),
            Claims = new Dictionary<string, object>(StringComparer.Ordinal) { ["jti"] = "theirs" },
            SigningCredentials = new SigningCredentials(new ECDsaSecurityKey(curve) { KeyId = "theirs" }, SecurityAlgorithms.EcdsaSha384),
        });

        Assert.Null(await given.CodeOf("Bearer " + token));
    }

    private static System.Collections.Immutable.ImmutableArray<HookKey> Set(params string[] keys) => KeySetText.Read(Encoding.UTF8.GetBytes($"{{\"keys\":[{string.Join(',', keys)}]}}"))!.Value;
}
