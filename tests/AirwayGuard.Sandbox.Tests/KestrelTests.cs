using System.Collections.Concurrent;
using System.Net;
using System.Text;
using AirwayGuard.Sandbox.Http;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace AirwayGuard.Sandbox.Tests;

/// <summary>The same server over sockets.</summary>
public sealed class KestrelTests : IAsyncLifetime
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("sandbox-");
    private readonly ConcurrentQueue<string> notified = new();
    private readonly HttpClient client = new(new SocketsHttpHandler { UseProxy = false });
    private WebApplication app = null!;
    private string root = "";

    public async ValueTask InitializeAsync()
    {
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().UseUrls("http://127.0.0.1:0");
        builder.Services.AddRoutingCore();
        builder.Services.AddSingleton<TimeProvider>(new ManualClock());
        builder.Services.AddFhirSandbox(options => (options.Folder, options.MaxBodyBytes) = (folder.FullName, 16 * 1024));
        app = builder.Build();
        app.MapFhirSandbox("/fhir");
        app.MapPut("/notify/{type}/{id}", (string type, string id) => notified.Enqueue($"{type}/{id}"));
        await app.StartAsync(TestContext.Current.CancellationToken);
        root = app.Urls.Single();
    }

    public async ValueTask DisposeAsync()
    {
        client.Dispose();
        await app.DisposeAsync();
        folder.Delete(recursive: true);
    }

    [Fact]
    public async Task A_resource_goes_in_and_comes_out_over_sockets()
    {
        var created = await Send(HttpMethod.Post, "/fhir/Patient", Some.Patient());
        var read = await Send(HttpMethod.Get, new Uri(created.Headers["Location"]).AbsolutePath);
        var page = await Send(HttpMethod.Get, "/fhir/Patient?family=must&_format=json");
        var gone = await Send(HttpMethod.Delete, $"/fhir/Patient/{created.Id}");

        Assert.Equal(HttpStatusCode.Created, created.Status);
        Assert.StartsWith($"{root}/fhir/Patient/", created.Headers["Location"], StringComparison.Ordinal);
        Assert.Equal("Sun, 01 Mar 2026 08:00:00 GMT", created.Headers["Date"]);
        Assert.Equal(created.Text, read.Text);
        Assert.Equal($"{root}/fhir/Patient/{created.Id}", (string?)page.Entries[0]["fullUrl"]);
        Assert.Equal(HttpStatusCode.NoContent, gone.Status);
    }

    [Fact]
    public async Task Head_and_not_modified_have_no_body_over_sockets()
    {
        var created = await Send(HttpMethod.Post, "/fhir/Patient", Some.Patient());
        var head = await Send(HttpMethod.Head, $"/fhir/Patient/{created.Id}");
        var same = await Send(HttpMethod.Get, $"/fhir/Patient/{created.Id}", body: null, ("If-None-Match", "W/\"1\""));

        Assert.Equal((HttpStatusCode.OK, ""), (head.Status, head.Text));
        Assert.Equal((HttpStatusCode.NotModified, ""), (same.Status, same.Text));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_body_over_the_limit_is_413_with_an_outcome(bool sized)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, root + "/fhir/Patient");
        request.Content = new ByteArrayContent(Encoding.UTF8.GetBytes(Some.Patient().PadRight(17 * 1024)));
        request.Content.Headers.TryAddWithoutValidation("Content-Type", "application/fhir+json");
        request.Headers.TransferEncodingChunked = !sized;
        using var response = await client.SendAsync(request, TestContext.Current.CancellationToken);
        var answer = await Answer.Of(response);

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.Status);
        Assert.Equal("too-long", answer.IssueCode);
    }

    [Fact]
    public async Task A_foreign_host_or_origin_does_not_come_in_over_sockets()
    {
        var host = await Send(HttpMethod.Get, "/fhir/metadata", body: null, ("Host", "evil.example"));
        var origin = await Send(HttpMethod.Post, "/fhir/Patient", Some.Patient(), ("Origin", "http://evil.example"));

        Assert.Equal(HttpStatusCode.MisdirectedRequest, host.Status);
        Assert.Equal(HttpStatusCode.Forbidden, origin.Status);
    }

    [Theory]
    [InlineData("/fhir")]
    [InlineData("/fhir/")]
    public async Task Bundles_are_posted_to_the_base_with_or_without_slash(string path)
    {
        var answer = await Send(HttpMethod.Post, path, Some.Bundle("transaction", Some.Entry("PUT", "Patient/p1", Some.Patient("p1"))));

        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Equal("201 Created", Assert.Single(answer.Statuses));
    }

    [Fact]
    public async Task The_hosted_loop_activates_and_delivers()
    {
        var created = await Send(HttpMethod.Post, "/fhir/Subscription", Some.Subscription("Flag?", $"{root}/notify", "application/fhir+json", header: null));
        await Until(async () => (string?)(await Send(HttpMethod.Get, $"/fhir/Subscription/{created.Id}")).Json["status"] == "active");

        await Send(HttpMethod.Post, "/fhir/Flag", Some.Flag("k1"));
        await Until(() => Task.FromResult(!notified.IsEmpty));

        Assert.StartsWith("Flag/", Assert.Single(notified), StringComparison.Ordinal);
    }

    private static async Task Until(Func<Task<bool>> condition)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        limit.CancelAfter(TimeSpan.FromSeconds(30));
        while (!await condition())
        {
            await Task.Delay(TimeSpan.FromMilliseconds(5), limit.Token);
        }
    }

    private async Task<Answer> Send(HttpMethod method, string path, string? body = null, params (string Name, string Value)[] headers)
    {
        using var request = new HttpRequestMessage(method, root + path);
        if (body is not null)
        {
            request.Content = new ByteArrayContent(Encoding.UTF8.GetBytes(body));
            request.Content.Headers.TryAddWithoutValidation("Content-Type", "application/fhir+json");
        }

        foreach (var (name, value) in headers)
        {
            request.Headers.TryAddWithoutValidation(name, value);
        }

        using var response = await client.SendAsync(request, TestContext.Current.CancellationToken);
        return await Answer.Of(response);
    }
}
