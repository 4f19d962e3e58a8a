using AirwayGuard.Host.Tests.Scenarios;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary>No row goes without a word: what is not judged is named, and what it might have said is nowhere a pass.</summary>
public sealed class CheckLeftOutTests : IDisposable
{
    private readonly GivenFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("""{"text":"gauge broken"}""", "dataAbsentReason")]
    [InlineData("""[{"text":"gauge broken"}]""", "note")]
    public async Task AVacuumWithoutValueIsAProblemAndCannotBeTold(string value, string member)
    {
        var answer = await CheckAsync(Given.Adult, Given.Observation("a", value, member));

        Assert.Equal(0, answer.Exit);
        Assert.Equal(["AG2120 Observation/a"], answer.Problems);
        Assert.Contains("vacuum-above-ceiling Observation/a: readable vacuum value", answer.CannotTell, StringComparer.Ordinal);
        Assert.DoesNotContain("gauge", answer.Stdout, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ACatheterWithoutValueIsAProblemAndItsCheckCannotBeTold()
    {
        var answer = await CheckAsync(
            Given.Adult, Given.Observation("tube", """{"value":8,"unit":"mm"}""", "valueQuantity", code: "tube-inner-diameter"),
            Given.Observation("pass", "true", "valueBoolean", code: "suction-pass"),
            Given.Observation("c", """{"coding":[{"code":"unknown"}]}""", "dataAbsentReason", code: "catheter-size"));

        Assert.Contains("AG2120 Observation/c", answer.Problems, StringComparer.Ordinal);
        Assert.Contains(answer.CannotTell, one => one.StartsWith("catheter-too-wide ", StringComparison.Ordinal));
    }

    [Fact]
    public async Task TheTextNamesTheRowWhatIsWrongAndWhatToDo()
    {
        var (_, text, _) = await InProcessCheck.RunAsync(
            ["check", _folder.File("rows.ndjson", Given.Adult, Given.Observation("a", "[]", "note"), Given.Observation("b", "220", "valueInteger", code: "vacuum-presure"))]);

        Assert.Contains("AG2120  Observation/a: The value of vacuum-pressure is missing. Nothing stands in its place. Chart the value,", text, StringComparison.Ordinal);
        Assert.Contains(
            "AG2121  Observation/b: At code.coding[0] stands vacuum-presure, which airway-care does not have. Did you mean vacuum-pressure? It was not read;", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AnOutletsVacuumChartedOnAPatientIsTold() => Assert.Equal(
        ["AG2132 Observation/w"], (await CheckAsync(Given.Adult, Given.Vacuum("w", "250").Replace("vacuum-pressure", "full-line-vacuum", StringComparison.Ordinal))).Problems);

    [Theory]
    [InlineData("Endotracheal suction", 1, "")]
    [InlineData("Suction", 0, "AG2131 Procedure/x")]
    public async Task AProcedureThatOnlyItsTextNamesIsAPassOrTold(string text, int passes, string problems)
    {
        var answer = await CheckAsync(
            Given.Adult, $$$"""{"resourceType":"Procedure","id":"x","status":"completed","code":{"text":"{{{text}}}"},"subject":{"reference":"Patient/p"},"performedDateTime":"2026-03-01T10:00:00Z"}""");

        Assert.Equal(passes, answer.Report.GetProperty("judged").GetProperty("passes").GetInt32());
        Assert.Equal(problems, string.Join(';', answer.Problems));
    }

    [Fact]
    public async Task RowsOfAProcedureOfAnotherSuctionAreKeptAndCounted()
    {
        var answer = await CheckAsync(
            Given.Adult, """{"resourceType":"Procedure","id":"n","status":"completed","code":{"coding":[{"system":"http://snomed.info/sct","code":"232701003"}]},"subject":{"reference":"Patient/p"},"performedDateTime":"2026-03-01T09:55:00Z"}""",
            Given.Vacuum("v", "220").TrimEnd()[..^1] + ""","partOf":[{"reference":"Procedure/n"}]}""");

        Assert.Empty(answer.Findings);
        Assert.Empty(answer.CannotTell);
        Assert.Equal(["AG2129 Patient/p"], answer.Problems);
    }

    [Theory]
    [InlineData("""{"text":"oral"}""", "AG2129 Patient/p", 0)]
    [InlineData("""{"text":"airway"}""", "", 1)]
    [InlineData("""{"text":"mouth or tube"}""", "AG2102 Observation/s", 0)]
    [InlineData("""{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer","code":"oral"},{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer","code":"airway"}]}""", "AG2123 Observation/s", 0)]
    public async Task APassThatServedSomethingElseIsNotJudgedAndOneThatNobodyCanTellIsOpen(string use, string problem, int exit)
    {
        var pass = Given.Observation("s", "true", "valueBoolean", code: "suction-pass").TrimEnd()[..^1] + $$"""
            ,"component":[{"code":{"coding":[{"system":"{{Given.Row}}","code":"suction-use"}]},"valueCodeableConcept":{{use}} }]}
            """;

        var answer = await CheckAsync(Given.Adult, pass);

        Assert.Equal(exit, answer.Exit);
        Assert.Equal(problem, string.Join(' ', answer.Problems));
        Assert.Equal(problem.Length > 0 && !problem.StartsWith("AG2129", StringComparison.Ordinal), answer.CannotTell.Contains("no-indication-charted Observation/s: what was suctioned", StringComparer.Ordinal));
        Assert.Equal(problem.StartsWith("AG2129", StringComparison.Ordinal) ? 0 : 1, answer.Report.GetProperty("judged").GetProperty("passes").GetInt32());
    }

    [Fact]
    public async Task WhatIsChartedWithoutAUnitOrInOtherWordsLeavesItsCheckOpen()
    {
        var answer = await CheckAsync(
            Given.Adult, Given.Observation("c", """{"value":25}""", "valueQuantity", code: "cuff-pressure"), Given.Observation("p", "true", "valueBoolean", code: "suction-pass"),
            Given.Observation("r", "\"went blue\"", "valueString", code: "suction-reaction"), Given.Observation("n", """{"value":2}""", "valueQuantity", code: "saline-instilled"));

        Assert.Contains("cuff-pressure-out-of-range Observation/c: readable cuff pressure", answer.CannotTell, StringComparer.Ordinal);
        Assert.Contains("saline-without-reason Observation/p: readable charting of saline", answer.CannotTell, StringComparer.Ordinal);
        Assert.Contains(answer.CannotTell, one => one.StartsWith("heart-rate-event-with-suction Observation/p: ", StringComparison.Ordinal));
        Assert.Equal(["AG2104 Observation/c", "AG2102 Observation/r", "AG2104 Observation/n"], answer.Problems);
    }

    [Fact]
    public async Task CodingsThatMeanTwoThingsAreNotJudged()
    {
        var row = Given.HighVacuum.Replace("\"coding\":[", $$"""
            "coding":[{"system":"{{Given.Row}}","code":"cuff-pressure"},
            """, StringComparison.Ordinal);

        var answer = await CheckAsync(Given.Adult, row);

        Assert.Equal(0, answer.Exit);
        Assert.Empty(answer.Findings);
        Assert.Equal(["AG2122 Observation/high"], answer.Problems);
        Assert.Contains("vacuum-above-ceiling Observation/high: readable vacuum value", answer.CannotTell, StringComparer.Ordinal);
    }

    // 20 is 20 mm[Hg], or 150 in kPa. A number over the ceiling in every unit in which it is possible breaches, whatever was meant.
    [Theory]
    [InlineData("20", "mmHg", "kPa", false)]
    [InlineData("20", "kPa", "mm[Hg]", false)]
    [InlineData("250", "kPa", "mm[Hg]", true)]
    public async Task AUnitToldTwiceAndDifferentlyIsDoubtful(string number, string unit, string ucum, bool isBreach)
    {
        var answer = await CheckAsync(Given.Adult, Given.Vacuum("a", number, unit: unit, ucum: ucum));

        Assert.Equal(["AG2119 Observation/a"], answer.Problems);
        Assert.Contains("vacuum-unit-doubtful Observation/a open", answer.Findings, StringComparer.Ordinal);
        Assert.Equal(isBreach, answer.Findings.Contains("vacuum-above-ceiling Observation/a open", StringComparer.Ordinal));
        Assert.Equal(!isBreach, answer.CannotTell.Any(one => one.StartsWith("vacuum-above-ceiling Observation/a", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task RowsThatNoMapKnowsAreCountedByCode_EachOnce_AndToldInOneLine()
    {
        string[] rows =
        [
            Given.Adult, Given.Observation("a", "1", "valueInteger", system: "urn:rows", code: "77"), Given.Observation("a", "2", "valueInteger", system: "urn:rows", code: "77"),
            Given.Observation("b", "1", "valueInteger", system: "urn:rows", code: "77"), Given.Observation("c", "1", "valueInteger", system: "urn:rows", code: "78"),
            Given.Observation("d", "88", "valueInteger", system: "http://snomed.info/sct", code: "34606001"),
        ];

        var answer = await CheckAsync(rows);
        var (exit, text, _) = await InProcessCheck.RunAsync(["check", _folder.File("rows.ndjson", rows)]);

        Assert.Equal(
            ["urn:rows|77 2", "urn:rows|78 1"],
            answer.Report.GetProperty("notMapped").EnumerateArray().Select(one => $"{one.GetProperty("code").GetString()} {one.GetProperty("count").GetInt32()}"), StringComparer.Ordinal);
        Assert.Empty(answer.Problems);
        Assert.Equal(0, exit);
        Assert.Contains(" 3 rows of 2 codes that no map knows (--format json lists them).", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhatMovesACursorOrHidesALineIsWrittenOut()
    {
        var row = Given.Vacuum("a", "250", unit: """mmHg\u001b[2J\nAG0000  all well\u202e\u009b1m""");
        var file = _folder.File("rows\u001b[31m.ndjson", Given.Adult, row, "torn");

        var (_, text, _) = await InProcessCheck.RunAsync(["check", file]);

        Assert.Contains(@"Charted: 250 mmHg\u001B[2J\u000AAG0000  all well\u202E\u009B1m.", text, StringComparison.Ordinal);
        Assert.Contains(@"AG2003  rows\u001B[31m.ndjson:3:", text, StringComparison.Ordinal);
        Assert.DoesNotContain(text, character => char.IsControl(character) && character is not ('\n' or '\r'));
        Assert.DoesNotContain("\nAG0000", text, StringComparison.Ordinal);
    }

    private Task<CheckAnswer> CheckAsync(params string[] rows) => CheckAnswer.OfAsync(_folder.File("rows.ndjson", rows));
}
