using System.Text.Json;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Host.Service.CdsHooks;
using Microsoft.AspNetCore.Http;
using Xunit;

namespace AirwayGuard.Host.Tests.Service.CdsHooks;

/// <summary>A refusal as it is sent (RFC 9457 §3).</summary>
public sealed class HookProblemTests
{
    [Fact]
    public async Task ARefusedToken_IsAProblemWithItsCode_AndAsksForAToken()
    {
        var (response, body) = await WrittenAsync(new HookRefusal(401, Codes.TokenAudience, "Authorization: aud", "It is for another."));

        Assert.Equal(401, response.StatusCode);
        Assert.Equal("application/problem+json", response.ContentType);
        Assert.Equal("Bearer", response.Headers.WWWAuthenticate);
        Assert.False(response.Headers.ContainsKey("Retry-After"));
        Assert.Equal(["type", "title", "status", "detail", "code", "where"], body.EnumerateObject().Select(member => member.Name), StringComparer.Ordinal);
        Assert.True(Uri.IsWellFormedUriString(body.GetProperty("type").GetString(), UriKind.Absolute));
        Assert.Equal(Codes.TokenAudience.Title, body.GetProperty("title").GetString());
        Assert.Equal(401, body.GetProperty("status").GetInt32());
        Assert.Equal($"It is for another. {Codes.TokenAudience.Advice}", body.GetProperty("detail").GetString());
        Assert.Equal("AG8208", body.GetProperty("code").GetString());
        Assert.Equal("Authorization: aud", body.GetProperty("where").GetString());
    }

    [Fact]
    public async Task TooManyRequests_SaysWhenToComeAgain()
    {
        var (response, body) = await WrittenAsync(new HookRefusal(429, Codes.HookTooMany, "request", "Too many.", 1));

        Assert.Equal(429, response.StatusCode);
        Assert.Equal("1", response.Headers.RetryAfter);
        Assert.False(response.Headers.ContainsKey("WWW-Authenticate"));
        Assert.Equal(429, body.GetProperty("status").GetInt32());
    }

    private static async Task<(HttpResponse Response, JsonElement Body)> WrittenAsync(HookRefusal refusal)
    {
        var context = new DefaultHttpContext();
        using var body = new MemoryStream();
        context.Response.Body = body;
        await HookProblem.WriteAsync(context, refusal);
        return (context.Response, JsonDocument.Parse(body.ToArray()).RootElement);
    }
}
