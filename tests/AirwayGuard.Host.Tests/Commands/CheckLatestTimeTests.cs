using AirwayGuard.Host.Tests.Scenarios;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary>Without <c>--as-of</c> the latest time of the input is the one judged at; a single time far from all others is told.</summary>
public sealed class CheckLatestTimeTests : IDisposable
{
    private const string Apart = "AG2125 Observation/far";

    private readonly GivenFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("2027-03-01T09:00:00Z", true)]
    [InlineData("2026-03-08T09:00:01Z", true)]
    [InlineData("2026-03-08T09:00:00Z", false)]
    [InlineData("2025-03-01T09:00:00Z", false)]
    public async Task OneRowMoreThanAWeekAfterAllElseIsTold(string at, bool isTold)
    {
        var answer = await CheckAsync([], Given.Adult, Given.Vacuum("near", "100", "2026-03-01T08:50:00Z"), Given.HighVacuum, Given.Vacuum("far", "100", at));

        Assert.Equal(isTold ? [Apart] : [], answer.Problems);
        Assert.Equal(1, answer.Exit);
    }

    [Fact]
    public async Task SoIsARowOfAnotherPatientAndAResourceWhoseEndAloneIsFar()
    {
        var other = Given.Vacuum("far", "100", "2027-03-01T09:00:00Z").Replace("Patient/p", "Patient/q", StringComparison.Ordinal);
        var stay = """{"resourceType":"Encounter","id":"e","status":"finished","class":{"code":"IMP"},"subject":{"reference":"Patient/p"},"period":{"start":"2026-03-01T08:00:00Z","end":"2027-03-01T08:00:00Z"}}""";

        Assert.Equal([Apart], (await CheckAsync([], Given.Adult, Given.HighVacuum, other)).Problems);
        Assert.Equal(["AG2125 Encounter/e"], (await CheckAsync([], Given.Adult, Given.HighVacuum, stay)).Problems);
    }

    [Fact]
    public async Task TwoRowsThatLieThereStandForEachOther() => Assert.Empty((await CheckAsync(
        [], Given.Adult, Given.HighVacuum, Given.Vacuum("far", "100", "2027-03-01T09:00:00Z"), Given.Vacuum("also", "100", "2027-03-01T08:00:00Z"))).Problems);

    [Fact]
    public async Task WhoAsksForATimeOrHasOneRowIsToldNothing()
    {
        var far = Given.Vacuum("far", "100", "2027-03-01T09:00:00Z");

        Assert.DoesNotContain(Apart, (await CheckAsync(["--as-of", "2026-03-01T10:00:00Z"], Given.Adult, Given.HighVacuum, far)).Problems, StringComparer.Ordinal);
        Assert.Empty((await CheckAsync([], Given.Adult, far)).Problems);
    }

    private async Task<CheckAnswer> CheckAsync(string[] options, params string[] resources) =>
        await CheckAnswer.OfAsync([_folder.File("rows.ndjson", resources), .. options]);
}
