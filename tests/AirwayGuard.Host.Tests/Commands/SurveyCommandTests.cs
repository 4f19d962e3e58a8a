using System.Text;
using System.Text.Json;
using AirwayGuard.Host.DemoWard;
using AirwayGuard.Host.Tests.DemoWard;
using AirwayGuard.Host.Tests.Scenarios;
using AirwayGuard.Rules;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary><c>survey</c> over files: outlets by unit, with their last reading, regulator and what the two checks say.</summary>
public sealed class SurveyCommandTests : IDisposable
{
    private const string Noon = "2026-03-10T12:00:00Z";

    private static readonly string Scenario = Path.Combine(ScenarioFolders.All.Single(folder => folder.EndsWith("89-wall-survey", StringComparison.Ordinal)), "input.json");

    private readonly GivenFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task EachUnitHasItsOutlets_AndThoseOfNoUnitStandLastUnderAHeadingThatSaysSo()
    {
        var (exit, text, errors) = await RunAsync(Scenario);

        Assert.Equal((1, ""), (exit, errors));
        Assert.Equal(
            """
            Rule set strict-ranges 1.0.0
            Surveyed as of 2026-03-10T08:00:00Z

            Willowmere ICU (Location/icu)
              Device/outlet-1  Bed 1
                Full line    420 mm[Hg]  2026-03-07T07:00:00Z, 3 d 1 h ago
                Supply       in order
                Survey       no interval is set
                Limited by   Device/reg-1 (at the same place), set to 110 mm[Hg] at 2026-03-10T08:00:00Z
              Device/outlet-2  Bed 2
                Full line    285 mm[Hg]  2026-03-07T07:10:00Z, 3 d 0 h ago
                Supply       LOW: The outlet's whole vacuum reads 285 mmHg, below 300 mmHg.
                Survey       no interval is set
                Limited by   Device/reg-9 (at the same place), no set value charted in 12 h
              Device/outlet-2b  Bed 2
                Full line    never read
                Supply       cannot tell: missing full-line reading
                Survey       no interval is set
                Limited by   Device/reg-9 (at the same place), no set value charted in 12 h

            Unit not known (the outlet names no Location, or its Location names none that it is part of)
              Location/theatre-3  Theatre 3, recovery
                Full line    55 kPa  2026-03-07T07:20:00Z, 3 d 0 h ago
                Supply       in order
                Survey       no interval is set
                Limited by   Device/reg-9 (named with the reading), no set value charted in 12 h

            4 outlets: 1 low, 0 not surveyed in time, 1 never read. Findings are exceptions from the policy in force, for licensed staff to weigh; local policy decides.

            """,
            text);
    }

    [Fact]
    public async Task AsJsonItSaysTheSame_AndNothingOfAPatient()
    {
        var (_, text, _) = await RunAsync(Scenario, "--format", "json");

        using var told = JsonDocument.Parse(text);
        var units = told.RootElement.GetProperty("units").EnumerateArray().ToArray();
        Assert.Equal(["Location/icu", null], units.Select(unit => unit.GetProperty("unit").GetString()), StringComparer.Ordinal);
        var first = units[0].GetProperty("outlets")[0];
        Assert.Equal(
            ("Device/outlet-1", "Location/bed-1", 420, "mm[Hg]", 4380),
            (first.GetProperty("outlet").GetString(), first.GetProperty("place").GetString(), first.GetProperty("reading").GetProperty("value").GetInt32(), first.GetProperty("reading").GetProperty("unit").GetString(), first.GetProperty("reading").GetProperty("minutesAgo").GetInt32()));
        Assert.Equal(110, first.GetProperty("regulators")[0].GetProperty("set").GetProperty("value").GetInt32());
        Assert.Equal(["in-order", "breach", "cannot-tell"], units[0].GetProperty("outlets").EnumerateArray().Select(one => one.GetProperty("supply").GetProperty("answer").GetString()), StringComparer.Ordinal);
        Assert.Equal(JsonValueKind.Null, units[0].GetProperty("outlets")[2].GetProperty("reading").ValueKind);
        Assert.All(["Patient", "bed-a", "set-a", "W-BED", "1961"], word => Assert.DoesNotContain(word, text, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("2026-03-09T12:00:00Z", 0, "    Survey       read within 3 d")]
    [InlineData("2026-03-10T08:00:00Z", 1, "    Survey       NOT SURVEYED for 3 d; 3 d are allowed")]
    public async Task WhereASiteSetsAnInterval_AnOutletIsToldThatWasNotReadForLonger(string asOf, int exit, string said)
    {
        var rules = _folder.File("site.yaml", Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(ShippedRuleSets.Bytes("strict-ranges").Span)
            .Replace("name: strict-ranges", "name: willowmere", StringComparison.Ordinal)
            .Replace("all: site-sets", "all: { limit: 3 d, source: common-practice, status: common-practice }", StringComparison.Ordinal)));

        var (found, text, errors) = await RunAsync(
            _folder.File("w.ndjson", Wall.Device("o", "wall-vacuum-outlet", "b"), Wall.Reading("w", "Device/o", "400", "2026-03-07T07:00:00Z")), "--rules", rules, "--as-of", asOf);

        Assert.Equal((exit, ""), (found, errors));
        Assert.Contains(said, text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task OfSeveralVersionsTheLatestCounts_AndWhatIsDeletedOrEnteredInErrorIsNot()
    {
        var old = """{"lastUpdated":"2026-03-01T00:00:00Z"}""";
        var late = """{"lastUpdated":"2026-03-02T00:00:00Z"}""";
        var bundle = Given.Bundle(
            "transaction",
            [.. new[]
            {
                Wall.Place("icu", "ICU", kind: "wa"), Wall.Place("hdu", "HDU", kind: "wa"), Wall.Place("gone", "Gone", kind: "wa"),
                Wall.Place("bed", "Bed", "hdu", meta: late), Wall.Place("bed", "Bed", "icu", meta: old), Wall.Place("attic", "Attic", "gone"),
                Wall.Reading("a", "Location/bed", "420", "2026-03-07T07:00:00Z", meta: late), Wall.Reading("a", "Location/bed", "120", "2026-03-07T07:00:00Z", meta: old),
                Wall.Reading("b", "Location/bed", "100", "2026-03-08T07:00:00Z", status: "entered-in-error"), Wall.Reading("c", "Location/attic", "400", "2026-03-08T07:00:00Z"),
                Wall.Reading("d", "Location/cellar", "400", "2026-03-08T07:00:00Z"),
            }.Select(Given.Entry), """{"request":{"method":"DELETE","url":"Location/gone"}}""", """{"request":{"method":"DELETE","url":"Observation/d"}}"""]);

        var (exit, text, _) = await RunAsync(_folder.File("b.json", bundle), "--as-of", Noon);

        Assert.Equal(0, exit);
        Assert.Contains("HDU (Location/hdu)\n  Location/bed  Bed\n    Full line    420 mm[Hg]", text, StringComparison.Ordinal);
        // What it is part of is still charted; only its name is gone.
        Assert.Contains("Location/gone\n  Location/attic  Attic", text, StringComparison.Ordinal);
        Assert.All(["ICU", "120", "cellar"], word => Assert.DoesNotContain(word, text, StringComparison.Ordinal));
    }

    [Fact]
    public async Task WhatBeginsAfterAsOfIsLeftOut()
    {
        var file = _folder.File("w.ndjson", Wall.Reading("a", "Location/bed", "420", "2026-03-07T07:00:00Z"), Wall.Reading("b", "Location/bed", "120", "2026-03-09T07:00:00Z"));

        Assert.Contains("120 mm[Hg]", (await RunAsync(file)).Text, StringComparison.Ordinal);
        Assert.Contains("420 mm[Hg]  2026-03-07T07:00:00Z, 5 h ago", (await RunAsync(file, "--as-of", "2026-03-07T13:00:00+01:00")).Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("4", "mmHg", "cannot tell: missing vacuum unit that can be trusted")]
    [InlineData("400", "furlong", "cannot tell: missing vacuum unit that can be trusted")]
    [InlineData("299.9", "mmHg", "LOW: The outlet's whole vacuum reads 299.9 mmHg")]
    [InlineData("40", "kPa", "in order")]
    public async Task AReadingThatCannotBeTrusted_IsNeverInOrder(string number, string unit, string said)
    {
        var (_, text, _) = await RunAsync(_folder.File("w.ndjson", Wall.Reading("a", "Location/bed", "420", "2026-03-07T07:00:00Z"), Wall.Reading("b", "Location/bed", number, "2026-03-09T07:00:00Z", unit)));

        Assert.Contains("    Supply       " + said, text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ANewerRowThatCannotBeRead_IsNoReading_SoThatTheOneBeforeStandsWithItsAge()
    {
        var unread = Wall.Reading("b", "Location/bed", "1", "2026-03-09T07:00:00Z").Replace("\"valueQuantity\":{\"value\":1,\"unit\":\"mmHg\"}", "\"valueString\":\"see note\"", StringComparison.Ordinal);

        var (_, text, _) = await RunAsync(_folder.File("w.ndjson", Wall.Reading("a", "Location/bed", "420", "2026-03-07T07:00:00Z"), unread), "--as-of", "2026-03-09T08:00:00Z");

        Assert.Contains("420 mm[Hg]  2026-03-07T07:00:00Z, 2 d 1 h ago", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ASetValueOlderThanTwelveHours_OrOfAnotherRegulator_IsNotToldOfThisOne()
    {
        string[] rows =
        [
            Wall.Device("r", "vacuum-regulator", "bed"), Wall.Device("other", "vacuum-regulator", "elsewhere"), Given.Adult, Wall.Reading("w", "Location/bed", "420", "2026-03-07T07:00:00Z"),
            Wall.Reading("s", "Patient/p", "110", "2026-03-08T07:00:00Z", device: "Device/r", code: "vacuum-set"), Wall.Reading("t", "Patient/p", "90", "2026-03-08T19:00:00Z", device: "Device/other", code: "vacuum-set"),
        ];

        Assert.Contains("Device/r (at the same place), set to 110 mm[Hg]", (await RunAsync(_folder.File("w.ndjson", rows), "--as-of", "2026-03-08T18:59:00Z")).Text, StringComparison.Ordinal);
        Assert.Contains("Device/r (at the same place), no set value charted in 12 h", (await RunAsync(_folder.File("w.ndjson", rows), "--as-of", "2026-03-08T19:01:00Z")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhereNoOutletIsCharted_ItSaysWhatWouldBeOne()
    {
        var (exit, text, _) = await RunAsync(_folder.File("w.ndjson", Given.Adult, Given.HighVacuum));

        Assert.Equal(0, exit);
        Assert.Contains("No outlet is charted: there is no full-line reading of a Location or Device", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task NamesCannotMoveTheTerminal()
    {
        var (_, text, _) = await RunAsync(_folder.File("w.ndjson", Wall.Place("bed", "Bed\\u001b[2J\\nLOW", "icu"), Wall.Reading("w", "Location/bed", "420", "2026-03-07T07:00:00Z")));

        Assert.Contains("Bed\\u001B[2J\\u000ALOW", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task PlacesThatLieWithinOneAnother_EndNowhere()
    {
        var (exit, text, _) = await RunAsync(_folder.File("w.ndjson", Wall.Place("a", "A", "b"), Wall.Place("b", "B", "a"), Wall.Reading("w", "Location/a", "420", "2026-03-07T07:00:00Z")));

        Assert.Equal(0, exit);
        Assert.Contains("B (Location/b)\n  Location/a  A", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task TheDemoWardHasItsWallToShow()
    {
        var ward = _folder.File("ward.ndjson", [.. WardPlan.Build(WardJudging.End, 1).Select(one => Encoding.UTF8.GetString(one.Json.Span))]);

        var (exit, text, errors) = await RunAsync(ward);

        Assert.Equal((0, ""), (exit, errors));
        Assert.All(
            ["Alder, adult intensive care (Location/unit-alder)", "Hazel, neonatal intensive care (Location/unit-hazel)", "Device/regulator-alder-1 (named with the reading)", "12 outlets: 0 low, 0 not surveyed in time, 1 never read."],
            words => Assert.Contains(words, text, StringComparison.Ordinal));
        Assert.DoesNotContain("Unit not known", text, StringComparison.Ordinal);
        Assert.All(["Patient", "Thrushgrove", "WM-"], word => Assert.DoesNotContain(word, text, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("x.json --frob", "survey PATH: --frob is no option of survey; write ./--frob for a file of that name. ")]
    [InlineData("x.json --format fhir", "survey --format: it takes text or json. ")]
    [InlineData("x.json --as-of 2026-03-01", "survey --as-of: it is no time with an offset, or there is no such time. ")]
    [InlineData("x.json --data d", "survey: give PATH or --data, not both. ")]
    [InlineData("--map m.json", "survey --map: a ledger holds what was read by the service's own maps; it goes with PATH only. ")]
    [InlineData("x.json --rules nope", "AG3001")]
    [InlineData("x.json --map nope.json", "AG2208")]
    public async Task WrongUsageExits64AndSaysWhatWasWrongOnStandardErrorAlone(string arguments, string said)
    {
        var (exit, text, errors) = await RunAsync(arguments.Split(' '));

        Assert.Equal((64, ""), (exit, text));
        Assert.Contains(said, errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhatCannotBeReadExits2_AndTheRestIsStillSurveyed()
    {
        var (exit, text, errors) = await RunAsync(_folder.File("w.ndjson", Wall.Reading("a", "Location/bed", "120", "2026-03-07T07:00:00Z"), "torn"), _folder.Of("none.json"));

        Assert.Equal(2, exit);
        Assert.Contains("LOW", text, StringComparison.Ordinal);
        Assert.Contains("AG2003  w.ndjson:2: ", errors, StringComparison.Ordinal);
        Assert.Contains("AG2001  none.json: ", errors, StringComparison.Ordinal);
    }

    private static async Task<(int Exit, string Text, string Errors)> RunAsync(params string[] arguments)
    {
        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(["survey", .. arguments]);
        return (exit, stdout, stderr);
    }
}
