using System.Net;
using System.Text.Json.Nodes;
using AirwayGuard.Host.Service.CdsHooks;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace AirwayGuard.Host.Tests.Service.CdsHooks;

/// <summary>When a key set is asked for, how long it is used, and what of an answer is not taken.</summary>
public sealed class KeySetsTests : IDisposable
{
    private static readonly CdsClient Client = new() { Issuer = GivenCheck.Issuer, KeySet = new Uri(GivenCheck.KeySet) };

    private readonly FakeTimeProvider _clock = new(GivenCheck.Now);
    private readonly KeyServer _server = new() { Set = SigningKey.Set(SigningKey.First.Jwk()) };
    private readonly KeySets _keys;

    public KeySetsTests() => _keys = new KeySets([Client], _server, _clock);

    public void Dispose() => _keys.Dispose();

    [Fact]
    public async Task ASet_IsUsedForTenMinutes_AndAskedForWhenNextUsed()
    {
        Assert.True(await HasAsync("first"));
        _clock.Advance(TimeSpan.FromSeconds(599));
        Assert.True(await HasAsync("first"));
        Assert.Single(_server.Asked);

        _clock.Advance(TimeSpan.FromSeconds(1));
        Assert.Single(_server.Asked);
        Assert.True(await HasAsync("first"));
        Assert.Equal(2, _server.Asked.Count);
    }

    [Theory]
    [InlineData(120, 120)]
    [InlineData(0, 60)]
    [InlineData(59, 60)]
    [InlineData(86400, 600)]
    public async Task TheServersMaxAge_ShortensThat_ToOneMinuteAtLeast(int maxAge, int used)
    {
        _server.MaxAge = TimeSpan.FromSeconds(maxAge);
        await HasAsync("first");
        _clock.Advance(TimeSpan.FromSeconds(used - 1));
        await HasAsync("first");
        Assert.Single(_server.Asked);

        _clock.Advance(TimeSpan.FromSeconds(1));
        await HasAsync("first");
        Assert.Equal(2, _server.Asked.Count);
    }

    [Fact]
    public async Task WhileTheServerIsAway_TheOldSetIsUsable_UntilAnHourAfterItWasFetched()
    {
        await HasAsync("first");
        _server.Set = null;
        _clock.Advance(TimeSpan.FromSeconds(3599));
        Assert.True(await HasAsync("first"));

        _clock.Advance(TimeSpan.FromSeconds(1));
        Assert.False((await FindAsync("first")).IsRead);
    }

    [Fact]
    public async Task AfterAFailure_ItIsAskedAgainAfterAMinute()
    {
        var set = _server.Set;
        _server.Set = null;
        Assert.False((await FindAsync("first")).IsRead);
        _server.Set = set;
        _clock.Advance(TimeSpan.FromSeconds(59));
        Assert.False((await FindAsync("first")).IsRead);
        Assert.Single(_server.Asked);

        _clock.Advance(TimeSpan.FromSeconds(1));
        Assert.True(await HasAsync("first"));
        Assert.Equal(2, _server.Asked.Count);
    }

    [Fact]
    public async Task AnUnknownKid_IsAskedForOnceAMinute()
    {
        await HasAsync("first");
        Assert.False(await HasAsync("second"));
        Assert.False(await HasAsync("second"));
        _clock.Advance(TimeSpan.FromSeconds(59));
        Assert.False(await HasAsync("second"));
        Assert.Equal(2, _server.Asked.Count);

        _clock.Advance(TimeSpan.FromSeconds(1));
        Assert.False(await HasAsync("second"));
        Assert.Equal(3, _server.Asked.Count);
    }

    [Fact]
    public async Task HoweverManyKidsAreTried_OneAddressIsAskedTenTimesAMinute()
    {
        for (var minute = 1; minute <= 3; minute++)
        {
            for (var kid = 0; kid < 1000; kid++)
            {
                Assert.False(await HasAsync($"guess-{kid}"));
            }

            Assert.Equal(10 * minute, _server.Asked.Count);
            Assert.True(await HasAsync("first"));
            _clock.Advance(TimeSpan.FromMinutes(1));
        }
    }

    [Fact]
    public async Task ANewKey_IsFoundAtOnce_AndTheOldOneGoesWithTheSet()
    {
        await HasAsync("first");
        _server.Set = SigningKey.Set(SigningKey.Second.Jwk());

        Assert.True(await HasAsync("second"));
        Assert.False(await HasAsync("first"));
    }

    // Whether a kid is new or made up cannot be told from an old set: "publish it" would be the wrong advice.
    [Fact]
    public async Task WhileTheServerIsAway_AKidThatTheOldSetLacks_IsNotCalledUnknown()
    {
        var set = _server.Set;
        await HasAsync("first");
        _server.Set = null;
        Assert.False((await FindAsync("second")).IsRead);
        Assert.False((await FindAsync("third")).IsRead);
        Assert.Equal(2, _server.Asked.Count);
        Assert.True(await HasAsync("first"));

        _server.Set = set;
        _clock.Advance(TimeSpan.FromMinutes(1));
        var answer = await FindAsync("second");
        Assert.True(answer.IsRead);
        Assert.Empty(answer.Keys);
    }

    [Fact]
    public async Task CallersAtTheSameTime_WaitForOneAnswer()
    {
        var gate = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        _server.Gate = gate.Task;
        var asking = Enumerable.Range(0, 20).Select(_ => HasAsync("first")).ToList();
        gate.SetResult();

        Assert.All(await Task.WhenAll(asking), Assert.True);
        Assert.Single(_server.Asked);
    }

    [Fact]
    public async Task ACallerWhoGivesUp_DoesNotEndTheQuestionForOthers()
    {
        var gate = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        _server.Gate = gate.Task;
        using var patience = new CancellationTokenSource();
        var gone = _keys.FindAsync(Client, "first", "ES384", patience.Token).AsTask();
        var stays = HasAsync("first");
        await patience.CancelAsync();
        await Task.WhenAny(gone);
        Assert.True(gone.IsCanceled);
        gate.SetResult();

        Assert.True(await stays);
        Assert.Single(_server.Asked);
    }

    [Fact]
    public async Task AServerThatDoesNotAnswer_IsLeftAfterFiveSeconds()
    {
        _server.Gate = new TaskCompletionSource().Task;
        var asking = FindAsync("first");
        await _server.FirstAskedAsync();
        _clock.Advance(TimeSpan.FromSeconds(4.9));
        Assert.False(asking.IsCompleted);
        _clock.Advance(TimeSpan.FromSeconds(0.1));

        Assert.False((await asking).IsRead);
    }

    [Theory]
    [InlineData(HttpStatusCode.Found)]
    [InlineData(HttpStatusCode.MovedPermanently)]
    [InlineData(HttpStatusCode.TemporaryRedirect)]
    [InlineData(HttpStatusCode.NotFound)]
    [InlineData(HttpStatusCode.InternalServerError)]
    [InlineData(HttpStatusCode.Created)]
    public async Task AnotherAnswerThan200_IsNoSet_WhateverItHolds(HttpStatusCode status)
    {
        _server.Status = status;
        _server.Location = new Uri("https://evil.example.org/jwks.json");

        Assert.False((await FindAsync("first")).IsRead);
        Assert.Equal([GivenCheck.KeySet], _server.Asked, StringComparer.Ordinal);
    }

    [Fact]
    public void WhatTheServiceFetchesWith_FollowsNoRedirect_AndKeepsNoCookie()
    {
        using var handler = Assert.IsType<SocketsHttpHandler>(KeySetFetch.Handler());

        Assert.False(handler.AllowAutoRedirect);
        Assert.False(handler.UseCookies);
    }

    [Theory]
    [InlineData(65_536, true)]
    [InlineData(65_537, false)]
    public async Task ASet_HasSixtyFourKilobytesAtMost(int bytes, bool isRead)
    {
        _server.Set = _server.Set!.PadRight(bytes);

        Assert.Equal(isRead, (await FindAsync("first")).IsRead);
    }

    [Theory]
    [InlineData("")]
    [InlineData("no")]
    [InlineData("[]")]
    [InlineData("{}")]
    [InlineData("null")]
    [InlineData("{\"keys\":{}}")]
    [InlineData("{\"keys\":[],\"keys\":[]}")]
    [InlineData("{\"keys\":[{\"kid\":\"a\",\"kid\":\"b\"}]}")]
    [InlineData("{\"keys\":[{\"kid\":\"\\ud800\"}]}")]
    [InlineData("{\"keys\":[")]
    [InlineData("\ufeff{\"keys\":[]}")]
    public async Task WhatIsNoSet_CannotBeRead(string text)
    {
        _server.Set = text;

        Assert.False((await FindAsync("first")).IsRead);
    }

    [Theory]
    [InlineData("use", "\"sig\"", true)]
    [InlineData("use", "\"enc\"", false)]
    [InlineData("use", "7", false)]
    [InlineData("key_ops", "[\"verify\"]", true)]
    [InlineData("key_ops", "[\"sign\",\"verify\"]", true)]
    [InlineData("key_ops", "[\"encrypt\"]", false)]
    [InlineData("key_ops", "[]", false)]
    [InlineData("key_ops", "\"verify\"", false)]
    [InlineData("alg", "\"ES384\"", true)]
    [InlineData("alg", "\"ES256\"", false)]
    [InlineData("alg", "null", false)]
    [InlineData("kid", "null", false)]
    [InlineData("kid", "\"First\"", false)]
    [InlineData("kty", "\"oct\"", false)]
    [InlineData("kty", "\"RSA\"", false)]
    [InlineData("crv", "\"P-256\"", false)]
    [InlineData("crv", "\"secp256k1\"", false)]
    [InlineData("x", "\"AAAA\"", false)]
    [InlineData("x", "\"not base64\"", false)]
    [InlineData("exp", "\"never\"", false)]
    public async Task AKey_CountsOnlyWhereItMayVerifyWithTheTokensAlgorithm(string member, string value, bool counts)
    {
        _server.Set = SigningKey.Set(SigningKey.First.Jwk((member, JsonNode.Parse(value))));

        var answer = await FindAsync("first");

        Assert.True(answer.IsRead);
        Assert.Equal(counts, !answer.Keys.IsEmpty);
    }

    [Fact]
    public async Task APointOffTheCurve_IsNoKey_AndTheOthersStay()
    {
        var moved = SigningKey.Second.Jwk(("y", SigningKey.First.Jwk()["y"]!.DeepClone()));
        _server.Set = SigningKey.Set(moved, SigningKey.First.Jwk());

        Assert.False(await HasAsync("second"));
        Assert.True(await HasAsync("first"));
    }

    [Theory]
    [InlineData("AQ")]
    [InlineData("AAAAAQ")]
    [InlineData("AQAC")]
    [InlineData("")]
    public async Task AnRsaKeyWithAnExponentThatProvesNothing_IsNoKey(string exponent)
    {
        _server.Set = SigningKey.Set(SigningKey.Rsa.Jwk(("e", exponent)));

        Assert.Empty((await _keys.FindAsync(Client, "rsa", "RS384", TestContext.Current.CancellationToken)).Keys);
    }

    // RFC 7518 §6.3.1.1 has no octet before the first that counts; the greatest length is ours, since verifying costs more with each.
    [Theory]
    [InlineData(0, 1024, true)]
    [InlineData(0, 1025, false)]
    [InlineData(1, 256, false)]
    public async Task AModulus_HasNoZerosBefore_And8192BitsAtMost(int zeros, int octets, bool counts)
    {
        byte[] modulus = [.. new byte[zeros], .. Enumerable.Repeat((byte)0xFF, octets)];
        _server.Set = SigningKey.Set(SigningKey.Rsa.Jwk(("n", System.Buffers.Text.Base64Url.EncodeToString(modulus))));

        Assert.Equal(counts, !(await _keys.FindAsync(Client, "rsa", "RS384", TestContext.Current.CancellationToken)).Keys.IsEmpty);
    }

    [Fact]
    public async Task AKeyPastItsTime_IsGone_WithoutAskingForTheSet()
    {
        _server.Set = SigningKey.Set(SigningKey.First.Jwk(("exp", GivenCheck.Now.ToUnixTimeSeconds() + 30)));
        _clock.Advance(TimeSpan.FromSeconds(29));
        Assert.True(await HasAsync("first"));

        _clock.Advance(TimeSpan.FromSeconds(1));
        Assert.False(await HasAsync("first"));
    }

    [Fact]
    public async Task OfKeysOfOneName_EachIsTried()
    {
        using var given = new GivenCheck();
        given.Server.Set = SigningKey.Set(SigningKey.Second.Jwk(("kid", "shared")), SigningKey.Rsa.Jwk(("kid", "shared")), SigningKey.First.Jwk(("kid", "shared")));

        Assert.Null(await given.CodeOf(Token.Of(SigningKey.First).Head("kid", "shared")));
        Assert.Null(await given.CodeOf(Token.Of(SigningKey.Rsa).Head("kid", "shared")));
        var other = SigningKey.Es384("shared");
        Assert.Equal("AG8207", await given.CodeOf(Token.Of(other)));
    }

    [Fact]
    public async Task ASetThatCannotBeRead_IsToldApartFromAKeyThatIsNotThere()
    {
        using var given = new GivenCheck();
        Assert.Equal("AG8206", await given.CodeOf(Token.Of(SigningKey.Second)));
        using var away = new GivenCheck();
        away.Server.Set = null;

        Assert.Equal("AG8211", await away.CodeOf(Token.Of(SigningKey.First)));
    }

    private async Task<bool> HasAsync(string kid) => !(await FindAsync(kid)).Keys.IsEmpty;

    private Task<KeyAnswer> FindAsync(string kid) => _keys.FindAsync(Client, kid, "ES384", TestContext.Current.CancellationToken).AsTask();
}
