using System.Net;
using AirwayGuard.Core.Ports;
using AirwayGuard.Host.Service;
using AirwayGuard.Host.Tests.Commands;
using AirwayGuard.Storage;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Judging;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace AirwayGuard.Host.Tests.Service;

/// <summary>The service's doors on a free port over a ledger of their own; nothing is swept or sent unless a test steps it.</summary>
internal sealed class GivenService : IAsyncDisposable
{
    private readonly GivenFolder _folder;
    private readonly StringWriter _errors;
    private readonly HttpClient _client = new(new SocketsHttpHandler { UseProxy = false });
    private readonly SqliteLedger _ledger;
    private readonly WebApplication _app;

    private GivenService(GivenFolder folder, SqliteLedger ledger, WebApplication app, StringWriter errors) =>
        (_folder, _ledger, _app, _errors) = (folder, ledger, app, errors);

    public ILedger Ledger => _ledger;

    public IServiceProvider Services => _app.Services;

    public string Root => _app.Urls.Single();

    /// <summary>The data folder, whose ledger is open.</summary>
    public string Folder => _folder.Path;

    public string Log => _errors.ToString();

    /// <param name="settings">Besides the address and the folder, e.g. <c>AirwayGuard:Mode=live</c>; with a server of its own unless "demo".</param>
    public static async Task<GivenService> StartAsync(params string[] settings)
    {
        var folder = new GivenFolder();
        var builder = ServiceHost.Begin([]);
        builder.Configuration.AddInMemoryCollection([.. Settings(folder, settings)]);
        var (plan, problems) = ServicePlan.Of(builder.Configuration);
        Assert.Empty(problems);
        var ledger = await SqliteLedger.OpenAsync(folder.Of("ledger"), Unflushed.Ledger, new SetClock(Charted.Morning));
        var errors = new StringWriter();
        var (basis, unread) = await SignedOffStart.BeginAsync(ledger, plan!, new SetClock(Charted.Morning), TestContext.Current.CancellationToken);
        Assert.Null(unread);
        var app = ServiceHost.Build(builder, plan!, ledger, basis!, new ServiceVoice(TextWriter.Null, errors));
        await app.StartAsync(TestContext.Current.CancellationToken);
        return new GivenService(folder, ledger, app, errors);
    }

    /// <summary>As after the first sweep: everything was asked for.</summary>
    public async Task SweptAsync()
    {
        var source = Services.GetRequiredService<SweepStep>();
        foreach (var query in source.Asked.Select(SweepNames.CursorName).Append(JudgeStep.FirstSweep))
        {
            await Ledger.KeepAsync([], new SweepCursor(query, Charted.Morning, null), TestContext.Current.CancellationToken);
        }
    }

    /// <summary>Keeps what was charted, in batches, as after a first sweep.</summary>
    public async Task KeepAsync(IArrivalReader reader, IEnumerable<Arrival> arrivals)
    {
        foreach (var batch in arrivals.Chunk(500))
        {
            await Ledger.KeepAsync([.. batch.Select(arrival => ArrivalReading.Of(arrival, reader, Ledger.Entities))], null, TestContext.Current.CancellationToken);
        }

        await SweptAsync();
    }

    public Task<HttpResponseMessage> GetAsync(string path, params (string Name, string Value)[] headers) => SendAsync(HttpMethod.Get, path, null, headers);

    public async Task<string> TextAsync(string path)
    {
        using var answer = await GetAsync(path);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
    }

    public async Task<HttpResponseMessage> SendAsync(HttpMethod method, string path, HttpContent? body, params (string Name, string Value)[] headers)
    {
        using var request = new HttpRequestMessage(method, Root + path) { Content = body };
        foreach (var (name, value) in headers)
        {
            request.Headers.TryAddWithoutValidation(name, value);
        }

        return await _client.SendAsync(request, TestContext.Current.CancellationToken);
    }

    public async ValueTask DisposeAsync()
    {
        _client.Dispose();
        await _app.DisposeAsync();
        await _ledger.DisposeAsync();
        await _errors.DisposeAsync();
        _folder.Dispose();
    }

    private static IEnumerable<KeyValuePair<string, string?>> Settings(GivenFolder folder, string[] settings)
    {
        yield return new("urls", "http://127.0.0.1:0");
        yield return new("AirwayGuard:DataDirectory", folder.Path);
        if (!settings.Contains("demo", StringComparer.Ordinal) && !settings.Any(setting => setting.StartsWith("AirwayGuard:Fhir:BaseUrl=", StringComparison.Ordinal)))
        {
            yield return new("AirwayGuard:Fhir:BaseUrl", "http://127.0.0.1:9/fhir");
        }

        foreach (var parts in settings.Where(setting => setting != "demo").Select(setting => setting.Split('=', 2)))
        {
            yield return new(parts[0], parts[1]);
        }
    }
}
