using Xunit;

namespace AirwayGuard.Host.Tests.Service.CdsHooks;

/// <summary>When a token counts: each edge on either side, with the skew that is allowed and without any.</summary>
public sealed class TokenTimesTests
{
    [Theory]
    [InlineData(60, -59.5, null)]
    [InlineData(60, -60, "AG8209")]
    [InlineData(0, 0.5, null)]
    [InlineData(0, 0, "AG8209")]
    [InlineData(300, -299, null)]
    [InlineData(300, -300, "AG8209")]
    public Task AnExpiredToken_IsRefused(int skew, double exp, string? code) => IsAsync(skew, code, ("iat", -600), ("exp", exp));

    [Theory]
    [InlineData(60, 60, null)]
    [InlineData(60, 60.5, "AG8209")]
    [InlineData(0, 0, null)]
    [InlineData(0, 0.5, "AG8209")]
    public Task ATokenIssuedLater_IsRefused(int skew, double iat, string? code) => IsAsync(skew, code, ("iat", iat), ("exp", 300));

    [Theory]
    [InlineData(60, 60, null)]
    [InlineData(60, 61, "AG8209")]
    [InlineData(0, 0, null)]
    [InlineData(0, 1, "AG8209")]
    public Task ATokenBeforeItsTime_IsRefused(int skew, double nbf, string? code) => IsAsync(skew, code, ("nbf", nbf));

    [Theory]
    [InlineData(60, 0, 3660, null)]
    [InlineData(60, 0, 3661, "AG8209")]
    [InlineData(0, 0, 3600, null)]
    [InlineData(0, 0, 3601, "AG8209")]
    [InlineData(60, -3000, 660, null)]
    [InlineData(60, -3000, 661, "AG8209")]
    [InlineData(60, 30, 3661, "AG8209")]
    [InlineData(60, 30, 3660, null)]
    public Task ATokenLastsAnHourAtMost(int skew, double iat, double exp, string? code) => IsAsync(skew, code, ("iat", iat), ("exp", exp));

    [Theory]
    [InlineData("\"soon\"")]
    [InlineData("\"1772438400\"")]
    [InlineData("null")]
    [InlineData("true")]
    [InlineData("-1")]
    [InlineData("1e300")]
    [InlineData("1e30")]
    [InlineData("253402300800")]
    [InlineData("[1772438400]")]
    public async Task ATimeThatIsNoNumericDate_IsUnreadable(string value)
    {
        using var given = new GivenCheck();
        foreach (var claim in (string[])["exp", "iat", "nbf"])
        {
            var token = Token.Of(SigningKey.First).Claim(claim, null);
            var claims = token.Claims.ToJsonString().TrimEnd('}') + $",\"{claim}\":{value}}}";

            Assert.Equal("AG8202", await given.CodeOf(Token.Sent(token.Header.ToJsonString(), claims, SigningKey.First.Sign)));
        }
    }

    [Fact]
    public async Task TheLastSecondOfTheCalendar_IsTooLong_AndNoFault()
    {
        using var given = new GivenCheck();

        Assert.Equal("AG8209", await given.CodeOf(Token.Of(SigningKey.First).Claim("exp", 253402300799)));
    }

    private static async Task IsAsync(int skew, string? code, params (string Name, double Seconds)[] times)
    {
        using var given = new GivenCheck(skew);
        var token = Token.Of(SigningKey.First);
        foreach (var (name, seconds) in times)
        {
            token.At(name, seconds);
        }

        Assert.Equal(code, await given.CodeOf(token));
        Assert.Equal(code is null ? 1 : 0, given.Used.Count);
    }
}
