using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary>A row that cannot be read is told as a problem, and what it bears on is not passed by the row before it.</summary>
public sealed class CheckRowsUnreadableTests : IDisposable
{
    private const string Wide = "catheter-too-wide", Vacuum = "vacuum-above-ceiling";

    private readonly GivenFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    // 12 Fr passes an outer tube of 8.0 mm and is too wide for an inner cannula of 6.5 mm.
    [Theory]
    [InlineData("inner-cannula-diameter", "\"6.5\"", "valueString", "inner cannula diameter")]
    [InlineData("inner-cannula-diameter", "\"size 6\"", "valueString", "inner cannula diameter")]
    [InlineData("inner-cannula-diameter", """{"coding":[{"code":"unknown"}]}""", "dataAbsentReason", "inner cannula diameter")]
    [InlineData("inner-cannula-diameter", """{"coding":[{"code":"not-performed"}]}""", "dataAbsentReason", "inner cannula diameter")]
    [InlineData("inner-cannula-in-place", "\"in situ\"", "valueString", "inner cannula diameter")]
    [InlineData("tube-inner-diameter", "\"7\"", "valueString", "tube inner diameter")]
    public async Task ADiameterThatCannotBeReadLeavesTheCatheterOpen(string code, string value, string member, string missing)
    {
        string[] rows =
        [
            Given.Adult, Row("t", "tube-inner-diameter", "\"8.0 mm\"", "08:00"), Row("s", "suction-pass", "true", "10:00", "valueBoolean"), Row("k", "catheter-size", "\"12 Fr\"", "10:00"),
        ];
        Assert.DoesNotContain((await CheckAsync(rows)).CannotTell, one => one.StartsWith(Wide, StringComparison.Ordinal));

        var answer = await CheckAsync([.. rows, Row("c", code, value, "09:00", member)]);

        Assert.Contains(answer.CannotTell, one => one.StartsWith(Wide, StringComparison.Ordinal) && one.EndsWith(": " + missing, StringComparison.Ordinal));
        Assert.Contains(answer.Findings, one => one.StartsWith("tube-diameter-unknown", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("\"EVD in situ\"", "valueString")]
    [InlineData("""{"coding":[{"code":"unknown"}]}""", "dataAbsentReason")]
    public async Task ACircumstanceThatCannotBeReadLeavesAVacuumBetweenTheLimitsOpen(string value, string member)
    {
        var row = Row("i", "intracranial-pressure-monitored", value, "09:00", member);

        var open = await CheckAsync(Given.Adult, row, Given.Vacuum("v", "130"));
        var over = await CheckAsync(Given.Adult, row, Given.HighVacuum);

        Assert.Contains(open.CannotTell, one => one.StartsWith(Vacuum, StringComparison.Ordinal) && one.EndsWith("whether intracranial pressure is monitored", StringComparison.Ordinal));
        Assert.Contains(over.Findings, one => one.StartsWith(Vacuum, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("\"27+3\"", "breach")]
    [InlineData("\"27\"", "open")]
    public async Task AGestationalAgeIsReadAsWeeksAndDaysOrLeavesTheBandOpen(string value, string expected)
    {
        var answer = await CheckAsync(Given.Adult.Replace("1961-05-04", "2025-12-01", StringComparison.Ordinal), Row("g", "gestational-age-at-birth", value, "09:00"), Given.Vacuum("v", "90"));

        Assert.Equal(expected == "breach", answer.Findings.Any(one => one.StartsWith(Vacuum, StringComparison.Ordinal)));
        Assert.Equal(expected == "open", answer.CannotTell.Any(one => one.StartsWith(Vacuum, StringComparison.Ordinal) && one.EndsWith("readable gestational age at birth", StringComparison.Ordinal)));
    }

    private static string Row(string id, string code, string value, string at, string member = "valueString") =>
        Given.Observation(id, value, member, at: $"2026-03-01T{at}:00Z", code: code);

    private Task<CheckAnswer> CheckAsync(params string[] rows) => CheckAnswer.OfAsync(_folder.File("rows.ndjson", rows));
}
