using System.Buffers.Text;
using System.Text;
using System.Text.Json.Nodes;

namespace AirwayGuard.Host.Tests.Service.CdsHooks;

/// <summary>A token as a well-behaved caller sends it at <see cref="GivenCheck.Now"/>; a test changes what it is about.</summary>
internal sealed class Token
{
    private static int _count;

    private readonly SigningKey _key;

    private Token(SigningKey key) => _key = key;

    public JsonObject Header { get; } = [];

    public JsonObject Claims { get; } = [];

    public static Token Of(SigningKey key)
    {
        var now = GivenCheck.Now.ToUnixTimeSeconds();
        var token = new Token(key);
        token.Header["alg"] = key.Algorithm;
        token.Header["kid"] = key.Kid;
        token.Header["typ"] = "JWT";
        token.Claims["iss"] = GivenCheck.Issuer;
        token.Claims["aud"] = GivenCheck.Address;
        token.Claims["iat"] = now;
        token.Claims["exp"] = now + 300;
        token.Claims["jti"] = $"call-{Interlocked.Increment(ref _count)}";
        return token;
    }

    /// <summary>Sets a member of the header; null takes it away.</summary>
    public Token Head(string name, JsonNode? value) => With(Header, name, value);

    /// <summary>Sets a claim; null takes it away.</summary>
    public Token Claim(string name, JsonNode? value) => With(Claims, name, value);

    /// <summary>Sets a time claim this many seconds from now.</summary>
    public Token At(string name, double seconds) => Claim(name, GivenCheck.Now.ToUnixTimeSeconds() + seconds);

    /// <summary>The Authorization header.</summary>
    public string Sent() => Sent(_key.Sign);

    public string Sent(Func<byte[], byte[]> sign) => Sent(Header.ToJsonString(), Claims.ToJsonString(), sign);

    public static string Sent(string header, string claims, Func<byte[], byte[]> sign)
    {
        var input = $"{Encode(header)}.{Encode(claims)}";
        return $"Bearer {input}.{Base64Url.EncodeToString(sign(Encoding.ASCII.GetBytes(input)))}";
    }

    private static string Encode(string json) => Base64Url.EncodeToString(Encoding.UTF8.GetBytes(json));

    private Token With(JsonObject part, string name, JsonNode? value)
    {
        part.Remove(name);
        if (value is not null)
        {
            part[name] = value;
        }

        return this;
    }
}
