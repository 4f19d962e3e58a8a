using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary>Rows that look like what they are not, from file to finding.</summary>
public sealed class CheckTrapsTests : IDisposable
{
    private readonly GivenFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    // A word inside a sentence says nothing: "no blood seen" holds the word blood, and "no frank-blood" even the code.
    [Theory]
    [InlineData("no blood seen", false)]
    [InlineData("no frank-blood", false)]
    [InlineData("not blood-streaked", false)]
    [InlineData("Frank-Blood ", true)]
    public async Task BloodIsReadWholeOrNotAtAll(string words, bool isBlood)
    {
        var answer = await CheckAnswer.OfAsync(_folder.File(
            "rows.ndjson", Given.Adult,
            Given.Observation("s1", "true", "valueBoolean", "2026-03-01T09:00:00Z", code: "suction-pass"), Appearance("a1", "2026-03-01T09:00:00Z"),
            Given.Observation("s2", "true", "valueBoolean", "2026-03-01T10:00:00Z", code: "suction-pass"), Appearance("a2", "2026-03-01T10:00:00Z")));

        Assert.Equal(isBlood, answer.Findings.Any(one => one.StartsWith("blood-stained-secretions-trend", StringComparison.Ordinal)));

        string Appearance(string id, string at) => Given.Observation(id, $"\"{words}\"", "valueString", at, code: "secretion-appearance");
    }

    // 20 cmH2O after rows in kPa is 14.7 mmHg as written and would be 150 as the row's usual unit: it is doubted, and clears nothing.
    [Fact]
    public async Task TwentyCentimetresOfWaterAfterKilopascalAreDoubtedAndClearNothing()
    {
        var answer = await CheckAnswer.OfAsync(_folder.File(
            "rows.ndjson", Given.Adult, Given.Vacuum("v1", "22", "2026-03-01T09:00:00Z", "kPa", "kPa"), Given.Vacuum("v2", "20", "2026-03-01T10:00:00Z", "cmH2O", "cm[H2O]")));

        Assert.Equal(["vacuum-above-ceiling Observation/v1 open", "vacuum-unit-doubtful Observation/v2 open"], answer.Findings, StringComparer.Ordinal);
    }

    // The clock of 29 March shows seventy minutes between them; ten have gone by.
    [Theory]
    [InlineData("2026-03-29T01:55:00+01:00", false)]
    [InlineData("2026-03-29T01:49:00+01:00", true)]
    public async Task AReadingBeforeTheClocksGoForwardIsAsOldAsItIs(string readAt, bool breaches)
    {
        var answer = await CheckAnswer.OfAsync(_folder.File(
            "rows.ndjson", Given.Adult, Given.Vacuum("v", "100", readAt), Given.Observation("s", "true", "valueBoolean", "2026-03-29T03:05:00+02:00", code: "suction-pass")));

        Assert.Equal(breaches, answer.Findings.Any(one => one.StartsWith("vacuum-not-checked-before-pass", StringComparison.Ordinal)));
    }

    // Two patients' encounters, or two of one patient, may share an instant: rows of one say nothing of the other's pass.
    [Theory]
    [InlineData("one", false)]
    [InlineData("two", true)]
    public async Task RowsOfAnotherEncounterAtTheSameInstantJoinNoPassOfThisOne(string charted, bool isMissing)
    {
        var answer = await CheckAnswer.OfAsync(_folder.File(
            "rows.ndjson", Given.Adult, In("one", Given.Observation("s", "true", "valueBoolean", code: "suction-pass")),
            In(charted, Given.Observation("i", """{"text":"secretions seen in the tube"}""", "valueCodeableConcept", code: "suction-indication"))));

        Assert.Equal(isMissing, answer.Findings.Contains("no-indication-charted Observation/s open", StringComparer.Ordinal));

        static string In(string encounter, string row) => row.Replace("\"status\"", $"\"encounter\":{{\"reference\":\"Encounter/{encounter}\"}},\"status\"", StringComparison.Ordinal);
    }
}
