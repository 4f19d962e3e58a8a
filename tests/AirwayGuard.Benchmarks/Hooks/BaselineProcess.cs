using System.Text.Json;
using System.Text.Json.Nodes;
using AirwayGuard.Benchmarks.Harness;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace AirwayGuard.Benchmarks.Hooks;

/// <summary>What the service is held against: the same web server with the same settings, which parses a body, writes it again and does nothing else; and the same with the answer on disk before it goes out.</summary>
internal static class BaselineProcess
{
    public const string Name = "hook-baseline";
    private const long LargestBody = 2_000_000;

    public static Task<ProgramAgain> StartAsync() => ProgramAgain.StartAsync(Name, serverHeaps: true);

    public static async Task<int> ServeAsync(TextReader input, TextWriter output)
    {
        using var folder = new ScratchFolder();
        using var log = new DurableLog(folder.Path);
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory, EnvironmentName = Environments.Production });
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        builder.WebHost.ConfigureKestrel(static kestrel => (kestrel.AddServerHeader, kestrel.Limits.MaxRequestBodySize) = (false, LargestBody));
        builder.Logging.ClearProviders();
        await using (var app = builder.Build())
        {
            app.MapPost("/echo", static context => EchoAsync(context, null));
            app.MapPost("/kept", context => EchoAsync(context, log));
            await app.StartAsync();
            await output.WriteLineAsync(app.Urls.Single());
            await output.FlushAsync();
            await input.ReadToEndAsync();
        }

        return 0;
    }

    private static async Task EchoAsync(HttpContext context, DurableLog? log)
    {
        var body = await JsonNode.ParseAsync(context.Request.Body, cancellationToken: context.RequestAborted);
        var json = JsonSerializer.SerializeToUtf8Bytes(body);
        if (log is not null)
        {
            await log.KeepAsync(json);
        }

        context.Response.ContentType = "application/json; charset=utf-8";
        context.Response.ContentLength = json.Length;
        await context.Response.Body.WriteAsync(json, context.RequestAborted);
    }
}
