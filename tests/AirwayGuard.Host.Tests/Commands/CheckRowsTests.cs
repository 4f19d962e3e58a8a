using System.Text.Json;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

public sealed class CheckRowsTests : IDisposable
{
    private const string Found = "vacuum-above-ceiling Observation/high open";

    private readonly GivenFolder _folder = new();

    public static TheoryData<string, string, int> Unused => new()
    {
        { Given.Vacuum("a", "300").Replace(""","subject":{"reference":"Patient/p"}""", "", StringComparison.Ordinal), "AG2005 Observation/a", 2 },
        { Given.Vacuum("a", "300", at: "2026-03-01T09:55:00"), "AG2006 Observation/a", 2 },
        { Given.Vacuum("a", "300", at: "2026-03-01"), "AG2006 Observation/a", 2 },
        { Given.Vacuum("a", "300", status: "entered-in-error"), "AG2108 Observation/a", 1 },
        { Given.Vacuum("a", "300", status: "hearsay"), "AG2111 Observation/a", 1 },
        { Given.Vacuum("a", "1e400"), "AG2101 Observation/a", 1 },
        { Given.Vacuum("a", "123456789012345678901234567890"), "AG2101 Observation/a", 1 },
        { Given.Vacuum("a", "\"NaN\""), "AG2101 Observation/a", 1 },
        { Given.Observation("a", "\"NaN\"", "valueString"), "AG2101 Observation/a", 1 },
        { Given.Observation("a", "\"as high as Mrs Miller asked\"", "valueString"), "AG2101 Observation/a", 1 },
        { Given.Vacuum("a", "300", unit: "furlong", ucum: "[fur_us]"), "AG2103 Observation/a", 1 },
    };

    public void Dispose() => _folder.Dispose();

    [Theory]
    [MemberData(nameof(Unused))]
    public async Task ARowThatCannotBeUsedIsAProblemWithoutItsContentAndTheRestIsJudged(string row, string problem, int exit)
    {
        var answer = await CheckAsync(Given.Adult, Given.HighVacuum, row);

        Assert.Equal(exit, answer.Exit);
        Assert.Contains(answer.Findings, one => one == Found);
        Assert.DoesNotContain(answer.Findings, one => one.StartsWith("vacuum-above-ceiling Observation/a", StringComparison.Ordinal));
        Assert.Equal([problem], answer.Problems);
        var why = answer.Report.GetProperty("problems")[0].GetProperty("why").GetString()!;
        Assert.All(["300", "Miller", "NaN", "1e400", "furlong", "hearsay", "2026"], charted => Assert.DoesNotContain(charted, why, StringComparison.Ordinal));
    }

    // The unit of its value is a dash: what breached is an answer of the check, and no value that somebody charted.
    [Fact]
    public async Task AnOrderOfWhichNothingWasReadShowsNoValue()
    {
        const string order =
            """{"resourceType":"ServiceRequest","id":"o","status":"active","intent":"order","subject":{"reference":"Patient/p"},"code":{"coding":[{"system":"http://snomed.info/sct","code":"230040009"}]},"authoredOn":"2026-03-01T08:00:00Z"}""";

        var answer = await CheckAsync(Given.Adult, order);

        var finding = Assert.Single(answer.Report.GetProperty("findings").EnumerateArray(), one => one.GetProperty("check").GetString() == "order-not-machine-readable");
        Assert.Equal(JsonValueKind.Null, finding.GetProperty("value").ValueKind);
        Assert.Equal("isNot", finding.GetProperty("limit").GetProperty("comparison").GetString());
    }

    [Fact]
    public async Task AnUnreadableValueIsNeverAPass()
    {
        var answer = await CheckAsync(Given.Adult, Given.Vacuum("a", "1e400"));

        Assert.Equal(0, answer.Exit);
        Assert.Equal(["vacuum-above-ceiling Observation/a: readable vacuum value"], answer.CannotTell.Where(one => one.StartsWith("vacuum-above-ceiling", StringComparison.Ordinal)), StringComparer.Ordinal);
    }

    [Fact]
    public async Task BothSignsInOneRowsHistoryAreToldOnceAndTheMagnitudeIsJudged()
    {
        var answer = await CheckAsync(
            Given.Adult, Given.HighVacuum, Given.Vacuum("minus", "-160"), Given.Vacuum("plus", "170", at: "2026-03-01T10:00:00Z"), Given.Vacuum("again", "-170", at: "2026-03-01T10:05:00Z"));

        Assert.Equal(1, answer.Exit);
        Assert.Equal(["AG2105 Observation/minus"], answer.Problems);
        Assert.Equal(4, answer.Report.GetProperty("findings")[0].GetProperty("count").GetInt32());
    }

    [Fact]
    public async Task AFutureBirthDateIsToldAndNothingThatNeedsAnAgeIsJudged()
    {
        var answer = await CheckAsync(Given.Adult.Replace("1961", "2061", StringComparison.Ordinal), Given.HighVacuum);

        Assert.Equal(0, answer.Exit);
        Assert.Equal(["AG2107 Patient/p"], answer.Problems);
        Assert.Equal(["vacuum-above-ceiling Observation/high: birth date that is not in the future"], answer.CannotTell.Where(one => one.StartsWith("vacuum-above-ceiling", StringComparison.Ordinal)), StringComparer.Ordinal);
    }

    [Fact]
    public async Task ARowDatedBeforeItsPatientsBirthIsToldAtTheRowAndTheOthersAreJudged()
    {
        var answer = await CheckAsync(Given.Adult, Given.HighVacuum, Given.Vacuum("next", "210"), Given.Vacuum("typo", "220", at: "1926-03-01T09:55:00Z"));

        Assert.Equal(1, answer.Exit);
        Assert.Equal(["AG2107 Observation/typo"], answer.Problems);
        Assert.Equal(2, Assert.Single(answer.Report.GetProperty("findings").EnumerateArray()).GetProperty("count").GetInt32());
        var problem = answer.Report.GetProperty("problems")[0].GetProperty("why").GetString();
        Assert.Equal("This is dated before the birth date of its patient, so that it was not judged by age.", problem);
    }

    [Fact]
    public async Task TwoSizesOfOneTubeAtOneInstantAreTold()
    {
        var answer = await CheckAsync(Given.Adult, Tube("a", 7), Tube("b", 8));

        Assert.Equal(0, answer.Exit);
        Assert.Equal(["AG2127 Observation/a"], answer.Problems);

        static string Tube(string id, int size) =>
            Given.Observation(id, $$"""{"value":{{size}},"unit":"mm"}""", "valueQuantity", at: "2026-03-01T08:00:00Z", code: "tube-inner-diameter");
    }

    [Fact]
    public async Task ARowThatSaysThatSuctionServedTwoThingsIsTold()
    {
        var answer = await CheckAsync(
            Given.Adult, Given.Observation("s", "true", "valueBoolean", code: "suction-pass").TrimEnd()[..^1] + $$"""
            ,"component":[{{Use("airway")}},{{Use("oral")}}]}
            """);

        Assert.Equal(0, answer.Exit);
        Assert.Equal(["AG2126 Observation/s"], answer.Problems);
        Assert.Contains("no-indication-charted Observation/s: what was suctioned", answer.CannotTell, StringComparer.Ordinal);

        static string Use(string use) =>
            $$$"""{"code":{"coding":[{"system":"{{{Given.Row}}}","code":"suction-use"}]},"valueCodeableConcept":{"text":"{{{use}}}"}}""";
    }

    [Fact]
    public async Task TwoUsesBesideAReadingAreTold()
    {
        var answer = await CheckAsync(Given.Adult, Given.Vacuum("high", "220"), UseRow("a", "airway"), UseRow("b", "gastric"));

        Assert.Equal(0, answer.Exit);
        Assert.Equal(["AG2126 Observation/high"], answer.Problems);
    }

    [Theory]
    [InlineData("oral", true)]
    [InlineData("airway", false)]
    public async Task AUseBesideAPassOfTheAirwayIsToldWhereItSaysAnother(string use, bool isTold)
    {
        var answer = await CheckAsync(Given.Adult, Given.Observation("s", "true", "valueBoolean", code: "suction-pass"), UseRow("u", use));

        Assert.Equal(isTold ? ["AG2128 Observation/u"] : [], answer.Problems);
        Assert.Equal(1, answer.Report.GetProperty("judged").GetProperty("passes").GetInt32());
    }

    [Fact]
    public async Task PassesOfAnotherSuctionAreCounted()
    {
        var answer = await CheckAsync(Given.Adult, Oral("s1", "09:00"), Oral("s2", "10:00"));

        Assert.Equal(["AG2129 Patient/p"], answer.Problems);
        Assert.Equal(
            "2 passes are charted as of another suction than the airway's; they were not judged.",
            answer.Report.GetProperty("problems")[0].GetProperty("why").GetString());
        Assert.Equal(0, answer.Report.GetProperty("judged").GetProperty("passes").GetInt32());

        static string Oral(string id, string time) =>
            Given.Observation(id, "true", "valueBoolean", at: $"2026-03-01T{time}:00Z", code: "suction-pass").TrimEnd()[..^1] + $$$"""
            ,"component":[{"code":{"coding":[{"system":"{{{Given.Row}}}","code":"suction-use"}]},"valueCodeableConcept":{"text":"oral"}}]}
            """;
    }

    private static string UseRow(string id, string use) => Given.Observation(id, $$"""{"text":"{{use}}"}""", "valueCodeableConcept", code: "suction-use");

    [Fact]
    public async Task APartOfAProcedureThatServedTheMouthLeavesOpenWhatWasSuctioned()
    {
        const string procedure = """
            {"resourceType":"Procedure","id":"q","status":"completed","code":{"coding":[{"system":"http://snomed.info/sct","code":"230040009"}]},"subject":{"reference":"Patient/p"},"performedDateTime":"2026-03-01T09:55:00Z"}
            """;
        var answer = await CheckAsync(
            Given.Adult, procedure.Trim(), Given.Observation("s", "true", "valueBoolean", code: "suction-pass").TrimEnd()[..^1] + $$$"""
            ,"partOf":[{"reference":"Procedure/q"}],"component":[{"code":{"coding":[{"system":"{{{Given.Row}}}","code":"suction-use"}]},"valueCodeableConcept":{"text":"oral"}},{"code":{"coding":[{"system":"{{{Given.Row}}}","code":"pass-duration"}]},"valueQuantity":{"value":25,"unit":"s"}}]}
            """);

        Assert.Equal(0, answer.Exit);
        Assert.Contains(answer.CannotTell, one => one.StartsWith("pass-too-long ", StringComparison.Ordinal) && one.EndsWith(": what was suctioned", StringComparison.Ordinal));
        Assert.Equal(1, answer.Report.GetProperty("judged").GetProperty("passes").GetInt32());
    }

    [Fact]
    public async Task OfSeveralVersionsTheLatestStampedCountsInWhateverOrderAndHoweverOftenGiven()
    {
        var old = Given.Vacuum("a", "300", meta: """{"versionId":"1","lastUpdated":"2026-03-01T10:00:00Z"}""");
        var mended = Given.Vacuum("a", "170", meta: """{"versionId":"2","lastUpdated":"2026-03-01T10:05:00Z"}""");

        var answers = new List<CheckAnswer>();
        foreach (var rows in new string[][] { [old, mended], [mended, old], [old, mended, old, mended], [mended, mended, old, old] })
        {
            answers.Add(await CheckAsync([Given.Adult, .. rows]));
        }

        Assert.All(answers, answer => Assert.Equal(170, answer.Report.GetProperty("findings")[0].GetProperty("value").GetProperty("value").GetInt32()));
        Assert.All(answers, answer => Assert.Equal(answers[0].Stdout, answer.Stdout));
    }

    [Fact]
    public async Task WithoutStampsTheLastReadCounts()
    {
        var answer = await CheckAsync(Given.Adult, Given.Vacuum("a", "300"), Given.Vacuum("a", "100"));

        Assert.Equal(0, answer.Exit);
        Assert.Equal(["vacuum-above-ceiling Observation/a withdrawn"], answer.Findings);
    }

    [Fact]
    public async Task ATimeOnlyAReplacedVersionHoldsIsNotTheTimeJudgedAt()
    {
        var answer = await CheckAsync(
            Given.Adult,
            Given.Vacuum("a", "170", at: "2036-03-01T09:55:00Z", meta: """{"versionId":"1","lastUpdated":"2026-03-01T10:00:00Z"}"""),
            Given.Vacuum("a", "170", meta: """{"versionId":"2","lastUpdated":"2026-03-01T10:05:00Z"}"""));

        Assert.Equal("2026-03-01T09:55:00Z", answer.Report.GetProperty("asOf").GetString());
    }

    private Task<CheckAnswer> CheckAsync(params string[] rows) => CheckAnswer.OfAsync(_folder.File("rows.ndjson", rows));
}
