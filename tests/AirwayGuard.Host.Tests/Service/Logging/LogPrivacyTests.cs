using AirwayGuard.Host.Service.Logging;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Http.Resilience;
using Microsoft.Extensions.Logging;
using Polly;
using Polly.Retry;
using Serilog;
using Xunit;

namespace AirwayGuard.Host.Tests.Service.Logging;

/// <summary>Whatever a library says, at whatever level: nothing of a request, an address or an exception's message gets into a log.</summary>
public sealed partial class LogPrivacyTests
{
    private const string Marker = "mallow-7-invented-patient";

    public static TheoryData<string> Forms => ["readable", "compact"];

    [Theory]
    [MemberData(nameof(Forms))]
    public async Task AnExceptionOfOurs_ShowsTypeAndWay_AndNeverItsMessage(string form)
    {
        var lines = await LoggedAsync(form, static services =>
        {
            var logger = services.GetRequiredService<ILoggerFactory>().CreateLogger("AirwayGuard.Worker.Invented");
            LogTrouble(logger, "sweep", Thrown());
            return Task.CompletedTask;
        });

        Assert.Contains("sweep", lines, StringComparison.Ordinal);
        Assert.Contains("System.AggregateException", lines, StringComparison.Ordinal);
        Assert.Contains("System.FormatException", lines, StringComparison.Ordinal);
        Assert.Contains("LogPrivacyTests.Thrower", lines, StringComparison.Ordinal);
        Assert.DoesNotContain(Marker, lines, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Forms))]
    public async Task ARequestThatFails_LeavesNoAddressAndNoMessage(string form)
    {
        var lines = await LoggedAsync(form, static async services =>
        {
            var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
            builder.WebHost.UseKestrelCore().UseUrls("http://127.0.0.1:0");
            builder.Services.AddRoutingCore();
            builder.Services.AddSingleton(services.GetRequiredService<ILoggerFactory>());
            await using var app = builder.Build();
            app.MapGet("/fail/{id}", string (string id) => throw new InvalidOperationException(id));
            await app.StartAsync(TestContext.Current.CancellationToken);
            using var client = new HttpClient(new SocketsHttpHandler { UseProxy = false });
            using var answer = await client.GetAsync(new Uri($"{app.Urls.Single()}/fail/{Marker}?patient={Marker}"), TestContext.Current.CancellationToken);
            Assert.Equal(500, (int)answer.StatusCode);
            await app.StopAsync(TestContext.Current.CancellationToken);
        });

        Assert.Contains("System.InvalidOperationException", lines, StringComparison.Ordinal);
        Assert.Contains("Request", lines, StringComparison.Ordinal);
        Assert.DoesNotContain(Marker, lines, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Forms))]
    public async Task AServiceThatFails_LeavesNoMessage(string form)
    {
        var lines = await LoggedAsync(form, static async services =>
        {
            var builder = Microsoft.Extensions.Hosting.Host.CreateEmptyApplicationBuilder(new HostApplicationBuilderSettings());
            builder.Services.AddSingleton(services.GetRequiredService<ILoggerFactory>());
            builder.Services.AddHostedService<Failing>();
            using var host = builder.Build();
            try
            {
                await host.RunAsync(TestContext.Current.CancellationToken);
            }
            catch (Exception stopped)
            {
                Assert.Contains(Marker, stopped.ToString(), StringComparison.Ordinal);
            }
        });

        Assert.Contains("System.InvalidOperationException", lines, StringComparison.Ordinal);
        Assert.DoesNotContain(Marker, lines, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Forms))]
    public async Task ACallThatFailsAndIsTriedAgain_LeavesNoAddressAndNoMessage(string form)
    {
        var lines = await LoggedAsync(form, static async services =>
        {
            var given = new ServiceCollection();
            given.AddSingleton(services.GetRequiredService<ILoggerFactory>());
            given.AddLogging();
            given.AddHttpClient("invented").ConfigurePrimaryHttpMessageHandler(static () => new Unreachable())
                .AddResilienceHandler("again", static pipeline => pipeline.AddRetry(new HttpRetryStrategyOptions
                {
                    MaxRetryAttempts = 2, Delay = TimeSpan.Zero, BackoffType = DelayBackoffType.Constant,
                    ShouldHandle = static arguments => ValueTask.FromResult(arguments.Outcome.Exception is HttpRequestException),
                }));
            await using var provider = given.BuildServiceProvider();
            var client = provider.GetRequiredService<IHttpClientFactory>().CreateClient("invented");
            await Assert.ThrowsAsync<HttpRequestException>(
                () => client.GetAsync(new Uri($"http://127.0.0.1/fhir/Patient/{Marker}?identifier={Marker}"), TestContext.Current.CancellationToken));
        });

        Assert.Contains("Polly", form == "compact" ? lines : "Polly", StringComparison.Ordinal);
        Assert.Contains("System.Net.Http.HttpRequestException", lines, StringComparison.Ordinal);
        Assert.Contains("Attempt", lines, StringComparison.Ordinal);
        Assert.DoesNotContain(Marker, lines, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Forms))]
    public async Task WhatIsConfigured_PassesOverSingleRequests(string form)
    {
        await using var output = new StringWriter();
        var log = new LoggerConfiguration();
        LogSetup.Configure(log, form, output);
        await using (var logger = log.CreateLogger())
        {
            logger.ForContext("SourceContext", "Microsoft.AspNetCore.Hosting.Diagnostics").Information("Request starting {Path}", Marker);
            logger.ForContext("SourceContext", "System.Net.Http.HttpClient.Default.LogicalHandler").Information("Sending {Uri}", Marker);
            logger.ForContext("SourceContext", "Polly").Warning("Execution attempt {Result}", Marker);
        }

        Assert.Empty(output.ToString());
    }

    private static async Task<string> LoggedAsync(string form, Func<IServiceProvider, Task> act)
    {
        await using var output = new StringWriter();
        var services = new ServiceCollection();
        services.AddSerilog(log => log.MinimumLevel.Verbose().WriteTo.Sink(new LineSink(LogSetup.FormOf(form), output)));
        await using (var provider = services.BuildServiceProvider())
        {
            await act(provider);
        }

        return output.ToString();
    }

    private static AggregateException Thrown()
    {
        try
        {
            Thrower();
        }
        catch (FormatException fault)
        {
            fault.Data["row"] = Marker;
            return new AggregateException(Marker, fault);
        }

        throw new InvalidOperationException("Nothing was thrown.");
    }

    private static void Thrower() => throw new FormatException(Marker);

    [LoggerMessage(1, LogLevel.Error, "Step {Step} failed")]
    private static partial void LogTrouble(Microsoft.Extensions.Logging.ILogger logger, string step, Exception trouble);

    private sealed class Failing : BackgroundService
    {
        protected override Task ExecuteAsync(CancellationToken stoppingToken) => throw new InvalidOperationException(Marker);
    }

    private sealed class Unreachable : HttpMessageHandler
    {
        protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken) =>
            throw new HttpRequestException(Marker);
    }
}
