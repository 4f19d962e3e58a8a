using System.Globalization;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Ports;
using AirwayGuard.Host.Service;
using AirwayGuard.Host.Tests.Commands;
using AirwayGuard.Host.Tests.Scenarios;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Judging;
using AirwayGuard.Worker.Sending;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace AirwayGuard.Host.Tests.Service;

/// <summary>
/// Marked names, numbers, dates and tokens go through every way, in success and in failure; then everything the program says is read:
/// logs, metrics, health, refusals at its doors, the trail, and what its commands print.
/// </summary>
public sealed class LeakTests
{
    private const int MostSteps = 2_000;

    private static readonly DateTimeOffset At = DateTimeOffset.Parse("2026-03-02T08:00:00Z", CultureInfo.InvariantCulture);

    private readonly Dictionary<string, string> _said = new(StringComparer.Ordinal);
    private readonly List<string> _tokens = [Marks.Token];

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task NothingThatIsMarkedIsTold()
    {
        await using (var server = await GivenService.StartAsync("demo"))
        await using (var service = await GivenService.StartAsync("AirwayGuard:Mode=live", $"AirwayGuard:Fhir:BaseUrl={server.Root}/fhir"))
        {
            await ChartAsync(server);
            await StepAsync(service);
            await SubscriptionTokensAsync(server);
            await AskAsync("served", service);
            Assert.NotEmpty(service.Log);
            await AskAsync("sandbox", server);
            await CommandsAsync("served", service);
            Assert.Contains("Flag", await server.TextAsync("/fhir/Flag?_summary=false"), StringComparison.Ordinal);
        }

        await using (var refusing = await RefusingAsync())
        await using (var service = await GivenService.StartAsync("AirwayGuard:Mode=live", "AirwayGuard:UnknownAge=strictest-band", $"AirwayGuard:Fhir:BaseUrl={refusing.Urls.Single()}/fhir"))
        {
            await service.Ledger.KeepAsync(
                [Charted.Vacuum(service.Ledger, Marks.RowId, "1", "Patient/" + Marks.PatientId, 263)], new SweepCursor(JudgeStep.FirstSweep, Charted.Morning, null), Stop);
            await service.SweptAsync();
            await StepAsync(service);
            Assert.NotEmpty(await service.Ledger.ParkedEntriesAsync(Stop));
            await AskAsync("refused", service);
            await CommandsAsync("refused", service);
        }

        await ChecksAsync();

        Assert.True(_said.Count > 40, $"{_said.Count}");
        Assert.All(_said, one => Assert.DoesNotContain(ForbiddenIn(one.Key), mark => one.Value.Contains(mark, StringComparison.OrdinalIgnoreCase)));
    }

    // A page, an explanation or a report about a chart names the chart and what is wrong on it; a command about what is set aside names resources.
    private IEnumerable<string> ForbiddenIn(string where) => where.Contains("about a chart", StringComparison.Ordinal) ? [.. Marks.OfThePerson, .. _tokens]
        : where.Contains("about resources", StringComparison.Ordinal) ? [.. Marks.OfThePerson, .. _tokens, Marks.Value]
        : [.. Marks.OfThePerson, .. _tokens, .. Marks.OfTheChart];

    private static async Task ChartAsync(GivenService server)
    {
        foreach (var resource in (string[])[Marks.Patient, Marks.High(At), .. Marks.Doubtful(At)])
        {
            var parsed = JsonNode.Parse(resource)!;
            using var answer = await server.SendAsync(HttpMethod.Put, $"/fhir/{parsed["resourceType"]}/{parsed["id"]}", Json(resource));
            Assert.True(answer.IsSuccessStatusCode, $"{answer.StatusCode}");
        }
    }

    private static async Task StepAsync(GivenService service)
    {
        var services = service.Services;
        for (var round = 0; round < 2; round++)
        {
            foreach (var step in (IStep[])[services.GetRequiredService<SubscriptionStep>(), services.GetRequiredService<SweepStep>(), services.GetRequiredService<DueStep>(),
                services.GetRequiredService<JudgeStep>(), services.GetRequiredService<SendStep>()])
            {
                for (var i = 0; i < MostSteps && await step.StepAsync(Stop) == StepResult.DidWork; i++)
                {
                }
            }
        }

        await services.GetRequiredService<AuditAnchor>().AnchorAsync(Stop);
    }

    private async Task SubscriptionTokensAsync(GivenService server)
    {
        var bundle = JsonNode.Parse(await server.TextAsync("/fhir/Subscription?_count=100"))!;
        var tokens = bundle["entry"]!.AsArray().Select(entry => ((string)entry!["resource"]!["channel"]!["header"]![0]!).Split(' ')[^1]).ToList();
        Assert.All(tokens, token => Assert.True(token.Length > 20));
        _tokens.AddRange(tokens);
    }

    private async Task AskAsync(string name, GivenService service)
    {
        service.Services.GetRequiredService<ServiceState>().IsReady = true;
        _said[$"{name}: metrics"] = await service.TextAsync("/metrics");
        _said[$"{name}: health"] = await service.TextAsync("/health/ready");
        _said[$"{name}: page about a chart"] = await service.TextAsync("/");
        (HttpMethod Method, string Path, string? Body, (string, string)[] Headers)[] refused =
        [
            (HttpMethod.Get, $"/{Marks.Asked}", null, []),
            (HttpMethod.Get, $"/metrics/{Marks.Number}?name={Marks.Family}", null, []),
            (HttpMethod.Post, $"/notify/{Marks.Token}", Marks.Patient, [("Authorization", "Bearer " + Marks.Token)]),
            (HttpMethod.Post, "/notify/Patient", Marks.Patient, [("Authorization", "Bearer " + Marks.Token)]),
            (HttpMethod.Put, $"/notify/Patient/Patient/{Marks.PatientId}", Marks.Patient, [("Authorization", "Bearer " + Marks.Token)]),
            (HttpMethod.Delete, $"/notify/Patient/Patient/{Marks.PatientId}", null, []),
            (HttpMethod.Post, $"/health/live?{Marks.Asked}", Marks.Patient, []),
            (HttpMethod.Get, "/", null, [("Host", Marks.Token + ".example.org")]),
            (HttpMethod.Get, "/metrics", null, [("Origin", $"http://{Marks.Asked}.example.org")]),
            (HttpMethod.Get, $"/fhir/{Marks.Family}?name={Marks.Asked}", null, []),
            (HttpMethod.Get, $"/fhir/Patient/{Marks.Asked}", null, [("Authorization", "Bearer " + Marks.Token)]),
            (HttpMethod.Get, $"/fhir/Patient?{Marks.Asked}={Marks.Number}", null, [("Prefer", "handling=strict")]),
            (HttpMethod.Get, $"/fhir/Observation?date={Marks.Asked}", null, []),
            (HttpMethod.Get, $"/fhir/Observation?value-quantity={Marks.Asked}", null, []),
            .. Marks.Broken(At).Select(body => (HttpMethod.Put, $"/fhir/Observation/{Marks.RowId}", (string?)body, Array.Empty<(string, string)>())),
            .. Marks.Broken(At).Select(body => (HttpMethod.Post, "/fhir", (string?)$$$"""{"resourceType":"Bundle","type":"transaction","entry":[{"resource":{{{body}}},"request":{"method":"POST","url":"{{{Marks.Asked}}}"}}]}""", Array.Empty<(string, string)>())),
        ];
        foreach (var (method, path, body, headers) in refused)
        {
            using var answer = await service.SendAsync(method, path, body is null ? null : Json(body), headers);
            _said[$"{name}: refusal {_said.Count}"] = $"{string.Join('\n', answer.Headers.Select(header => string.Join(',', header.Value)))}\n{await answer.Content.ReadAsStringAsync(Stop)}";
            Assert.False(answer.IsSuccessStatusCode && path.StartsWith("/fhir", StringComparison.Ordinal), $"{method} was not refused");
        }

        _said[$"{name}: log"] = service.Log;
        var trail = new StringBuilder();
        await foreach (var entry in service.Ledger.AuditTrailAsync(Stop))
        {
            trail.Append(entry.What).Append(' ').Append(entry.Subject).Append(' ').Append(entry.Detail).Append('\n');
        }

        _said[$"{name}: trail about resources"] = trail.ToString();
    }

    private async Task CommandsAsync(string name, GivenService service)
    {
        var log = Path.Combine(service.Folder, "log");
        await File.WriteAllTextAsync(log, service.Log, Stop);
        await SayAsync($"{name}: audit verify", "audit", "verify", "--data", service.Folder, "--anchors", log);
        await SayAsync($"{name}: audit verify, other", "audit", "verify", "--data", service.Folder, "--anchors", Marks.Asked);
        await SayAsync($"{name}: parked list about resources", "parked", "list", "--data", service.Folder);
        foreach (var parked in await service.Ledger.ParkedEntriesAsync(Stop))
        {
            await SayAsync($"{name}: parked show {parked.Number} about resources", "parked", "show", parked.Number.ToString(CultureInfo.InvariantCulture), "--data", service.Folder);
        }

        var findings = await service.Ledger.FindingsAsync(service.Ledger.Entities.Intern(Core.Charting.EntityKind.Patient, Encoding.UTF8.GetBytes("Patient/" + Marks.PatientId)), Stop);
        Assert.NotEmpty(findings);
        foreach (var finding in findings)
        {
            await SayAsync($"{name}: explain {finding.Key} about a chart", "explain", finding.Key.ToString(), "--data", service.Folder);
        }
    }

    private async Task ChecksAsync()
    {
        using var folder = new GivenFolder();
        var files = (string[])[Marks.Patient, Marks.High(At), .. Marks.Doubtful(At), .. Marks.Broken(At)];
        for (var i = 0; i < files.Length; i++)
        {
            await File.WriteAllTextAsync(folder.Of($"{i}.json"), files[i], Stop);
            await SayAsync($"check of file {i} about a chart", "check", folder.Of($"{i}.json"));
        }

        await SayAsync("check of all about a chart", "check", folder.Path);
        await SayAsync("check of all as JSON about a chart", "check", folder.Path, "--format", "json");
    }

    private async Task SayAsync(string name, params string[] command)
    {
        var (_, output, errors) = await InProcessCheck.RunAsync(command);
        _said[name] = output + errors;
        Assert.True(_said[name].Length > 0, name);
    }

    // A server that says back, in every refusal, more than it should.
    private static async Task<WebApplication> RefusingAsync()
    {
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().UseUrls("http://127.0.0.1:0");
        var app = builder.Build();
        app.Run(static async context =>
        {
            var search = context.Request.Method == "GET" && context.Request.Path.Value!.Contains("/Device", StringComparison.Ordinal);
            context.Response.StatusCode = search ? 200 : 422;
            context.Response.ContentType = "application/fhir+json";
            await context.Response.WriteAsync(search
                ? """{"resourceType":"Bundle","type":"searchset","total":0}"""
                : $$"""{"resourceType":"OperationOutcome","issue":[{"severity":"error","code":"invalid","diagnostics":"{{Marks.Family}} {{Marks.Number}} {{Marks.Birth}}","expression":["{{Marks.Note}}"]}]}""");
        });
        await app.StartAsync(Stop);
        return app;
    }

    private static StringContent Json(string body) => new(body, Encoding.UTF8, new MediaTypeHeaderValue("application/fhir+json"));
}
