using System.Text;
using AirwayGuard.Sandbox;
using AirwayGuard.Sandbox.Http;
using AirwayGuard.TestKit.Habits;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.Habits;

/// <summary>Every habit shows: a switch that changes nothing would prove nothing.</summary>
public sealed class HabitEffectTests(UsualAnswers usual) : IClassFixture<UsualAnswers>
{
    // A race and a notice do not show in one client's answers; they have tests of their own below.
    public static TheoryData<string> Shown =>
        [.. HabitCatalog.Switches.Where(habit => habit.Name != nameof(RacyCreates) && !habit.Name.StartsWith("Notices", StringComparison.Ordinal)).Select(habit => habit.Name)];

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [MemberData(nameof(Shown))]
    public async Task AHabitShowsInWhatTheServerAnswers(string name) =>
        Assert.NotEqual(usual.Said, await HabitProbe.AnswersAsync(HabitCatalog.Switches.Single(habit => habit.Name == name)), StringComparer.Ordinal);

    [Fact]
    public async Task ConditionalCreatesAtOneTime_WriteTwice_AndThenMatchSeveral()
    {
        const string Flag = """{"resourceType":"Flag","identifier":[{"system":"urn:x","value":"k"}],"status":"active","code":{"text":"x"},"subject":{"reference":"Patient/p"}}""";
        var folder = Directory.CreateTempSubdirectory("airwayguard-race-");
        try
        {
            var (clock, looked, second) = (new SetClock(Ward.Morning), 0, 0);
            using var repository = new SandboxRepository(Unflushed.Sandbox(folder.FullName), clock);
            using var racy = new RacyCreates { InnerHandler = new SandboxHandler(new SandboxServer(repository, clock)) };
            using var client = new HttpClient(racy);
            racy.Between = async () => second = ++looked == 1 ? await CreateAsync(client, Flag) : second;

            var first = await CreateAsync(client, Flag);

            Assert.Equal((201, 201), (first, second));
            Assert.Equal(2, repository.Search("Flag", "identifier=urn:x|k").Count);
            Assert.Equal(412, await CreateAsync(client, Flag));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Theory]
    [InlineData(nameof(NoticeHabit.Plain), 1)]
    [InlineData(nameof(NoticeHabit.Reversed), 1)]
    [InlineData(nameof(NoticeHabit.Repeated), 3)]
    [InlineData(nameof(NoticeHabit.Dropped), 0)]
    public async Task ANoticeComesAsOftenAsTheHabitSays(string habit, int times)
    {
        await using var bench = await PipelineBench.StartAsync(Ward.Morning, HabitCatalog.Switches.Single(one => one.Name == "Notices" + habit).Settings());
        await bench.NotifyAsync();
        var before = bench.NoticesDelivered;

        await bench.PutAsync(Ward.Patient);
        await bench.NotifyAsync();

        Assert.Equal(times, bench.NoticesDelivered - before);
    }

    private static async Task<int> CreateAsync(HttpClient client, string flag)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, PipelineBench.Server + "/Flag") { Content = new StringContent(flag, Encoding.UTF8, "application/fhir+json") };
        request.Headers.TryAddWithoutValidation("If-None-Exist", "identifier=urn:x|k");
        using var answer = await client.SendAsync(request, Stop);
        return (int)answer.StatusCode;
    }
}
