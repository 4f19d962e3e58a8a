using System.Net;
using System.Text;
using AirwayGuard.Host.Service.CdsHooks;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace AirwayGuard.Host.Tests.Service.CdsHooks;

/// <summary>What the service itself fetches with, against a server on loopback.</summary>
public sealed class FetchedOverLoopbackTests : IAsyncLifetime
{
    private readonly WebApplication _server;
    private readonly List<string> _asked = [];

    public FetchedOverLoopbackTests()
    {
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel => kestrel.Listen(IPAddress.Loopback, 0));
        _server = builder.Build();
        _server.Run(AnswerAsync);
    }

    public async ValueTask InitializeAsync() => await _server.StartAsync(TestContext.Current.CancellationToken);

    public ValueTask DisposeAsync() => _server.DisposeAsync();

    [Fact]
    public async Task ASet_IsRead()
    {
        Assert.Single((await FindAsync("/jwks.json")).Keys);
        Assert.Equal(["/jwks.json"], _asked, StringComparer.Ordinal);
    }

    [Theory]
    [InlineData("/301")]
    [InlineData("/302")]
    [InlineData("/307")]
    [InlineData("/308")]
    public async Task ARedirect_IsNotFollowed_AlthoughASetIsThere(string path)
    {
        Assert.False((await FindAsync(path)).IsRead);
        Assert.Equal([path], _asked, StringComparer.Ordinal);
    }

    [Fact]
    public async Task AnAnswerThatNeverEnds_IsLeftWhenItIsTooLong() => Assert.False((await FindAsync("/endless")).IsRead);

    [Fact]
    public async Task APackedAnswer_IsNotUnpacked() => Assert.False((await FindAsync("/packed")).IsRead);

    private async Task<KeyAnswer> FindAsync(string path)
    {
        var root = _server.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.Single();
        var client = new CdsClient { Issuer = GivenCheck.Issuer, KeySet = new Uri(root + path) };
        using var keys = new KeySets([client], KeySetFetch.Handler(), new FakeTimeProvider(GivenCheck.Now));
        return await keys.FindAsync(client, "first", "ES384", TestContext.Current.CancellationToken);
    }

    private async Task AnswerAsync(HttpContext context)
    {
        var path = context.Request.Path.Value!;
        _asked.Add(path);
        var set = Encoding.UTF8.GetBytes(SigningKey.Set(SigningKey.First.Jwk()));
        if (path is "/endless")
        {
            var spaces = Encoding.UTF8.GetBytes(new string(' ', 8192));
            while (!context.RequestAborted.IsCancellationRequested)
            {
                await context.Response.Body.WriteAsync(spaces, context.RequestAborted);
            }
        }
        else if (path is "/packed")
        {
            context.Response.Headers.ContentEncoding = "gzip";
            await using var packed = new System.IO.Compression.GZipStream(context.Response.Body, System.IO.Compression.CompressionLevel.Fastest);
            await packed.WriteAsync(set, context.RequestAborted);
        }
        else
        {
            context.Response.StatusCode = path is "/jwks.json" ? StatusCodes.Status200OK : int.Parse(path[1..], System.Globalization.CultureInfo.InvariantCulture);
            context.Response.Headers.Location = "/jwks.json";
            await context.Response.Body.WriteAsync(set, context.RequestAborted);
        }
    }
}
