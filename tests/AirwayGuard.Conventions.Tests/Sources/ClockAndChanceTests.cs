namespace AirwayGuard.Conventions.Tests.Sources;

/// <summary>
/// Time and chance are handed in, so that a replay gives the same and a simulator can own the loop. The analyzer refuses most of
/// this too; here it is refused wherever somebody switches the analyzer off.
/// </summary>
public class ClockAndChanceTests
{
    private const string SystemClock = "src/AirwayGuard.Host/SystemClock.cs";

    [Theory]
    [InlineData("DateTime.Now")]
    [InlineData("DateTime.UtcNow")]
    [InlineData("DateTime.Today")]
    [InlineData("DateTimeOffset.Now")]
    [InlineData("DateTimeOffset.UtcNow")]
    [InlineData("Thread.Sleep")]
    [InlineData("SpinWait.SpinUntil")]
    [InlineData("Random.Shared")]
    [InlineData("new Random()")]
    [InlineData("Environment.TickCount")]
    [InlineData("Environment.TickCount64")]
    public void NoSource_AsksTheMachineFor(string what) =>
        Rule.Holds($"{what} is not for us: take a TimeProvider or a seeded Random.", SourceFile.All.SelectMany(source => source.PlacesOf(what)));

    [Fact]
    public void TheSystemsClock_IsNamedInOnePlace_AndInTheClocksOfTests() =>
        Rule.Holds(
            $"Only {SystemClock} names it:",
            SourceFile.All.Where(source => source.File != SystemClock && !(source.File.StartsWith("tests/", StringComparison.Ordinal) && source.File.EndsWith("Clock.cs", StringComparison.Ordinal)))
                .SelectMany(source => source.PlacesOf("TimeProvider.System")));

    [Fact]
    public void TheOnePlace_IsThere() =>
        Assert.NotEmpty(SourceFile.All.Single(source => source.File == SystemClock).PlacesOf("TimeProvider.System"));

    [Theory]
    [InlineData("Task.Delay(")]
    [InlineData("new PeriodicTimer(")]
    [InlineData("new CancellationTokenSource(TimeSpan")]
    public void AWaitInTheService_RunsOnAClockHandedIn(string call) =>
        Rule.Holds(
            $"{call}…) without a clock:",
            SourceFile.In("src").SelectMany(source => source.OffsetsOf(call)
                .Where(at => !source.Bracketed(at + call.IndexOf('(', StringComparison.Ordinal)).Contains("clock", StringComparison.OrdinalIgnoreCase))
                .Select(source.Place)));

    [Theory]
    [InlineData("System.Threading.Timer")]
    [InlineData("new Timer(")]
    [InlineData("System.Timers")]
    [InlineData(".CancelAfter(")]
    [InlineData("Stopwatch.StartNew")]
    [InlineData("Stopwatch.GetTimestamp")]
    public void TheService_HasNoTimerOfItsOwn(string what) =>
        Rule.Holds($"{what} runs on the machine's clock; the TimeProvider has its own:", SourceFile.In("src").SelectMany(source => source.PlacesOf(what)));
}
