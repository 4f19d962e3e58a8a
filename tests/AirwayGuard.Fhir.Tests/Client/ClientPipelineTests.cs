using System.Net;
using AirwayGuard.Fhir.Client;
using AirwayGuard.Fhir.Tests.WriteBack;
using Hl7.Fhir.Model;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Options;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace AirwayGuard.Fhir.Tests.Client;

/// <summary>The client as it is registered: what is repeated, what is not, and where the token goes.</summary>
public sealed class ClientPipelineTests : IDisposable
{
    private readonly ScriptedHandler _wire = new();
    private readonly FakeTimeProvider _clock = new(Some.Noon);
    private readonly List<ServiceProvider> _providers = [];

    public void Dispose()
    {
        _providers.ForEach(provider => provider.Dispose());
        _wire.Dispose();
    }

    [Fact]
    public async System.Threading.Tasks.Task ARead_IsRepeatedAfterAFailure()
    {
        _wire.Say(HttpStatusCode.ServiceUnavailable, HttpStatusCode.NotFound);

        Assert.Equal(FhirReply.NotFound, (await CallAsync(http => http.ReadAsync("Flag", "1", Stop))).Reply);
        Assert.Equal(2, _wire.Count);
    }

    [Fact]
    public async System.Threading.Tasks.Task ACreateWithIfNoneExist_IsRepeated_AndTheSameBodyIsSent()
    {
        _wire.Say(HttpStatusCode.BadGateway, HttpStatusCode.Created);

        Assert.True((await CallAsync(http => http.CreateOnceAsync(new Flag { Id = "x" }, "urn:s", "v", Stop))).IsDone);
        Assert.Equal(2, _wire.Count);
        Assert.Equal(_wire.Bodies[0], _wire.Bodies[1]);
    }

    [Fact]
    public async System.Threading.Tasks.Task ACreateWithoutIfNoneExist_IsNeverRepeated()
    {
        _wire.Say(HttpStatusCode.BadGateway, HttpStatusCode.Created);

        Assert.Equal(FhirReply.TryLater, (await CallAsync(http => http.CreateAsync(new Provenance(), Stop))).Reply);
        Assert.Equal(1, _wire.Count);
    }

    [Fact]
    public async System.Threading.Tasks.Task AWaitLongerThanTheBound_IsHandedToTheCallerAndNotWaitedFor()
    {
        _wire.Say(() => Busy("3600"));
        var answer = await CallAsync(http => http.ReadAsync("Flag", "1", Stop));

        Assert.Equal((FhirReply.TryLater, TimeSpan.FromHours(1), 1), (answer.Reply, answer.RetryAfter, _wire.Count));
    }

    [Theory]
    [InlineData(4, 2)]
    [InlineData(5, 2)]
    [InlineData(6, 1)]
    public async System.Threading.Tasks.Task ARetryAfterAsADate_IsWaitedForByTheHandedInClockUpToTheBound(int seconds, int sent)
    {
        _wire.Say(() => Busy(_clock.GetUtcNow().AddSeconds(seconds).ToString("R")));
        var asked = _clock.GetUtcNow();
        var answer = await CallAsync(http => http.ReadAsync("Flag", "1", Stop));

        Assert.Equal(sent, _wire.Count);
        Assert.Equal(sent == 2, answer.Reply == FhirReply.NotFound);
        Assert.True(sent == 1 || _clock.GetUtcNow() - asked >= TimeSpan.FromSeconds(seconds));
    }

    [Theory]
    [InlineData("3600", 60)]
    [InlineData("3601", 60)]
    [InlineData("99999999", 60)]
    [InlineData("Sun, 01 Jan 2040 00:00:00 GMT", 60)]
    [InlineData("Sat, 01 Jan 2000 00:00:00 GMT", 0)]
    [InlineData("0", 0)]
    public async System.Threading.Tasks.Task AWait_IsNeverBelowZeroNorOverAnHour(string header, int minutes)
    {
        _wire.Say(() => Busy(header));
        var answer = await CallAsync(http => http.ReadAsync("Flag", "1", Stop), options => options.Retries = 0);

        Assert.Equal(TimeSpan.FromMinutes(minutes), answer.RetryAfter);
    }

    [Fact]
    public async System.Threading.Tasks.Task AServerThatNeverAnswers_IsGivenUpByTheHandedInClock()
    {
        _wire.NeverAnswers = true;
        var answer = await CallAsync(http => http.ReadAsync("Flag", "1", Stop));

        Assert.Equal((FhirReply.Unclear, "AG5109", 3), (answer.Reply, answer.Code!.Id, _wire.Count));
    }

    [Fact]
    public async System.Threading.Tasks.Task AfterManyFailures_TheCircuitOpensAndNothingIsSentUntilItsTimeIsOver()
    {
        _wire.Otherwise = HttpStatusCode.ServiceUnavailable;
        var http = Http(options => (options.Retries, options.BreakerMinimumAttempts) = (0, 4));
        for (var i = 0; i < 4; i++)
        {
            await http.ReadAsync("Flag", "1", Stop);
        }

        var answer = await http.ReadAsync("Flag", "1", Stop);
        var sent = _wire.Count;
        _clock.Advance(TimeSpan.FromSeconds(16));
        await http.ReadAsync("Flag", "1", Stop);

        Assert.Equal((FhirReply.TryLater, "AG5112"), (answer.Reply, answer.Code!.Id));
        Assert.Equal((4, 5), (sent, _wire.Count));
    }

    // One kind of question may fail where all others are answered: they are asked on.
    [Fact]
    public async System.Threading.Tasks.Task AfterManyErrorsOfTheServersOwn_TheOthersAreStillAsked()
    {
        _wire.Otherwise = HttpStatusCode.InternalServerError;
        var http = Http(options => (options.Retries, options.BreakerMinimumAttempts) = (0, 4));
        for (var i = 0; i < 8; i++)
        {
            await http.ReadAsync("Flag", "1", Stop);
        }

        Assert.Equal(8, _wire.Count);
    }

    [Fact]
    public async System.Threading.Tasks.Task ARedirect_IsNotFollowedAndRefused()
    {
        _wire.Say(() => new HttpResponseMessage(HttpStatusCode.Redirect) { Headers = { Location = new Uri("https://evil.example/fhir/Flag/1") } });
        var answer = await CallAsync(http => http.ReadAsync("Flag", "1", Stop));

        Assert.Equal((FhirReply.Refused, "AG5102", 1), (answer.Reply, answer.Code!.Id, _wire.Count));
    }

    [Fact]
    public async System.Threading.Tasks.Task TheToken_GoesToTheServerAndNowhereElse()
    {
        var provider = Provider(_ => { });
        _wire.Say(HttpStatusCode.NotFound);
        await provider.GetRequiredService<FhirHttp>().ReadAsync("Flag", "1", Stop);
        using var client = provider.GetRequiredService<IHttpClientFactory>().CreateClient(FhirClientServices.ClientName);

        await Assert.ThrowsAsync<AddressRefusedException>(() => client.GetAsync(new Uri("https://evil.example/fhir/Flag/1"), Stop));
        Assert.Equal("Bearer invented", Assert.Single(_wire.Tokens));
    }

    [Fact]
    public async System.Threading.Tasks.Task ABodyOverTheLimit_IsUnclear()
    {
        _wire.Otherwise = HttpStatusCode.OK;
        _wire.Body = new string(' ', 1_000_001);
        var answer = await CallAsync(http => http.ReadAsync("Flag", "1", Stop), options => (options.MaxAnswerMegabytes, options.Retries) = (1, 0));

        Assert.Equal((FhirReply.Unclear, "AG5111"), (answer.Reply, answer.Code!.Id));
    }

    [Theory]
    [InlineData("http://ehr.example.org/fhir")]
    [InlineData("ftp://ehr.example.org/fhir")]
    [InlineData("https://ehr.example.org/fhir?x=1")]
    public void AnAddressThatMayNotBe_IsRefusedBeforeTheFirstCall(string address)
    {
        using var provider = Provider(options => options.BaseUrl = new Uri(address));

        Assert.Throws<OptionsValidationException>(() => provider.GetRequiredService<FhirHttp>());
    }

    [Fact]
    public void AnOptionOutOfRange_IsRefusedBeforeTheFirstCall()
    {
        using var provider = Provider(options => options.AttemptTimeoutSeconds = 0);

        Assert.Throws<OptionsValidationException>(() => provider.GetRequiredService<FhirHttp>());
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static HttpResponseMessage Busy(string retryAfter)
    {
        var response = new HttpResponseMessage(HttpStatusCode.TooManyRequests);
        response.Headers.TryAddWithoutValidation("Retry-After", retryAfter);
        return response;
    }

    private FhirHttp Http(Action<FhirClientOptions> configure) => Provider(configure).GetRequiredService<FhirHttp>();

    // Turns the clock until the call is over; waits are the clock's, never the wall's.
    private async Task<FhirAnswer> CallAsync(Func<FhirHttp, Task<FhirAnswer>> call, Action<FhirClientOptions>? configure = null)
    {
        var running = call(Http(configure ?? (_ => { })));
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(30));
        while (!running.IsCompleted)
        {
            patience.Token.ThrowIfCancellationRequested();
            _clock.Advance(TimeSpan.FromMilliseconds(250));
            await System.Threading.Tasks.Task.Yield();
        }

        return await running;
    }

    private ServiceProvider Provider(Action<FhirClientOptions> configure)
    {
        var services = new ServiceCollection();
        services.AddSingleton<TimeProvider>(_clock);
        services.AddSingleton(new Jitter(() => 0.5));
        services.AddSingleton<IAccessToken>(new FixedToken());
        services.AddAirwayGuardFhirClient(options =>
        {
            options.BaseUrl = new Uri("https://ehr.example.org/fhir");
            configure(options);
        }).ConfigurePrimaryHttpMessageHandler(() => _wire);
        var provider = services.BuildServiceProvider();
        _providers.Add(provider);
        return provider;
    }

    private sealed class FixedToken : IAccessToken
    {
        public ValueTask<string?> GetAsync(CancellationToken stop) => ValueTask.FromResult<string?>("invented");
    }
}
