using System.Buffers.Text;
using Xunit;

namespace AirwayGuard.Host.Tests.Service.CdsHooks;

/// <summary>Whatever is sent is answered with a refusal that quotes none of it, and never with a fault.</summary>
public sealed class GarbageTests : IDisposable
{
    private readonly GivenCheck _given = new();

    public void Dispose() => _given.Dispose();

    [Theory]
    [InlineData("x")]
    [InlineData(".")]
    [InlineData("..")]
    [InlineData("...")]
    [InlineData("....")]
    [InlineData("a.b.c")]
    [InlineData("e30.e30.")]
    [InlineData("e30=.e30=.AA==")]
    [InlineData("e30.e30.AA, Bearer e30.e30.AA")]
    [InlineData("e 30.e30.AA")]
    [InlineData("ÿÿÿÿ.ÿÿÿÿ.ÿÿÿÿ")]
    [InlineData("\0\0.\0\0.\0\0")]
    public async Task WhatIsNoToken_IsRefused(string token) => Assert.StartsWith("AG820", await _given.CodeOf("Bearer " + token), StringComparison.Ordinal);

    [Theory]
    [InlineData("[]")]
    [InlineData("null")]
    [InlineData("\"ES384\"")]
    [InlineData("{")]
    [InlineData("{}{}")]
    [InlineData("{\"alg\":\"ES384\",\"alg\":\"ES384\",\"kid\":\"first\"}")]
    [InlineData("{\"alg\":\"none\",\"alg\":\"ES384\",\"kid\":\"first\"}")]
    [InlineData("{\"alg\":\"ES384\",\"kid\":\"first\",\"\\u006bid\":\"second\"}")]
    [InlineData("{\"alg\":\"ES384\",\"kid\":\"\\ud800\"}")]
    [InlineData("{\"alg\":\"ES384\",\"kid\":\"first\",\"\\ud800\":1}")]
    [InlineData("{\"alg\":[\"ES384\"],\"kid\":\"first\"}")]
    [InlineData("{\"alg\":\"ES384\",\"kid\":\"first\",\"jku\":null}")]
    [InlineData("{\"alg\":\"ES384\",\"kid\":\"first\",\"typ\":null}")]
    [InlineData("{\"alg\":\"ES384\",\"kid\":\"first\",\"a\":[[[[[[[[[[[[[[[[[[[[1]]]]]]]]]]]]]]]]]]]]}")]
    [InlineData("\ufeff{\"alg\":\"ES384\",\"kid\":\"first\"}")]
    public async Task AHeaderThatIsNotPlain_IsRefused_AlthoughItsSignatureHolds(string header)
    {
        var code = await _given.CodeOf(Token.Sent(header, Token.Of(SigningKey.First).Claims.ToJsonString(), SigningKey.First.Sign));

        Assert.True(code is "AG8202" or "AG8203", code);
        Assert.Empty(_given.Server.Asked);
    }

    [Theory]
    [InlineData("\"jti\":\"again\"")]
    [InlineData("\"iss\":\"https://ehr.example.org\"")]
    [InlineData("\"a\":{\"b\":1,\"b\":2}")]
    [InlineData("\"a\":\"\\udc00\",\"\\udc00\":1")]
    [InlineData("\"a\":1e")]
    public async Task ClaimsWithAMemberTwice_OrBroken_AreRefused(string besides)
    {
        var token = Token.Of(SigningKey.First);
        var claims = token.Claims.ToJsonString().TrimEnd('}') + $",{besides}}}";

        Assert.Equal("AG8202", await _given.CodeOf(Token.Sent(token.Header.ToJsonString(), claims, SigningKey.First.Sign)));
    }

    [Theory]
    [InlineData("iss", "[\"https://ehr.example.org\"]")]
    [InlineData("aud", "{\"a\":1}")]
    [InlineData("aud", "[\"https://ag.hosp.example.org/cds-services/suction-order-sign\",7]")]
    [InlineData("jti", "7")]
    [InlineData("iss", "\"\\ud800\"")]
    public async Task AClaimOfAnotherKind_IsUnreadable(string name, string value)
    {
        var token = Token.Of(SigningKey.First).Claim(name, null);
        var claims = token.Claims.ToJsonString().TrimEnd('}') + $",\"{name}\":{value}}}";

        Assert.Equal("AG8202", await _given.CodeOf(Token.Sent(token.Header.ToJsonString(), claims, SigningKey.First.Sign)));
    }

    [Fact]
    public async Task ClaimsThatNobodyAskedFor_AreLeftAlone()
    {
        var token = Token.Of(SigningKey.First).At("exp", 299.25).At("iat", -0.5);
        var claims = token.Claims.ToJsonString().TrimEnd('}') + ",\"tenant\":{\"a\":[1,null,{\"b\":1e400}]},\"sub\":7,\"amr\":null}";

        Assert.Null(await _given.CodeOf(Token.Sent(token.Header.ToJsonString(), claims, SigningKey.First.Sign)));
    }

    [Fact]
    public async Task AToken_HasEightKilobytesAtMost()
    {
        // 3 characters more of a claim are 4 more of the token, so that its length can be met.
        string Sent(int padding) => Token.Of(SigningKey.First).Claim("jti", "of-a-set-length").Claim("pad", new string('x', padding)).Sent();
        var padding = Enumerable.Range(5000, 1500).Last(length => Sent(length).Length <= "Bearer ".Length + 8192);
        Assert.InRange(Sent(padding).Length, "Bearer ".Length + 8190, "Bearer ".Length + 8192);

        Assert.Null(await _given.CodeOf(Sent(padding)));
        Assert.Equal("AG8202", await _given.CodeOf(Sent(padding + 3)));
        Assert.Equal("AG8202", await _given.CodeOf("Bearer " + new string('.', 100_000)));
    }

    [Fact]
    public async Task AnyChangeToAToken_IsRefused_AndMarksNothing()
    {
        var random = new Random(20260302);
        var sent = Token.Of(SigningKey.First).Sent();
        for (var run = 0; run < 3000; run++)
        {
            var letters = sent.ToCharArray();
            var (at, letter) = (random.Next("Bearer ".Length, letters.Length), (char)random.Next(33, 127));
            if (letters[at] == letter)
            {
                continue;
            }

            letters[at] = letter;
            Assert.NotNull(await _given.CodeOf(new string(letters)));
        }

        Assert.Empty(_given.Used);
        Assert.Null(await _given.CodeOf(sent));
    }

    [Fact]
    public async Task RandomBytesInEachPart_AreRefused()
    {
        var random = new Random(20260303);
        string Part()
        {
            var bytes = new byte[random.Next(0, 200)];
            random.NextBytes(bytes);
            return Base64Url.EncodeToString(bytes);
        }

        for (var run = 0; run < 2000; run++)
        {
            Assert.Equal("AG8202", await _given.CodeOf($"Bearer {Part()}.{Part()}.{Part()}"));
        }
    }

    [Fact]
    public async Task ARefusal_QuotesNothingOfTheToken()
    {
        const string Mark = "mark-of-the-sender";
        foreach (var token in new[]
        {
            Token.Of(SigningKey.First).Claim("iss", Mark), Token.Of(SigningKey.First).Head("jku", Mark), Token.Of(SigningKey.First).Head("kid", Mark),
            Token.Of(SigningKey.First).Claim("aud", Mark), Token.Of(SigningKey.First).Head("alg", Mark), Token.Of(SigningKey.First).Head("typ", Mark),
        })
        {
            var refusal = (await _given.AskAsync(token.Sent())).Refusal!;

            Assert.DoesNotContain(Mark, refusal.ToString(), StringComparison.Ordinal);
        }
    }
}
