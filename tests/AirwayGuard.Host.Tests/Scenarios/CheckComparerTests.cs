using Xunit;

namespace AirwayGuard.Host.Tests.Scenarios;

public sealed class CheckComparerTests
{
    private const string Finding =
        """{"check":"vacuum-above-ceiling","severity":"high","patient":"Patient/a","about":["Observation/v"],"at":"2026-03-10T08:00:00Z","value":{"value":220,"unit":"mm[Hg]"}}""";

    private const string Other = """{"check":"pass-too-long","patient":"Patient/a","at":"2026-03-10T09:00:00Z"}""";

    [Fact]
    public void Output_that_is_as_expected_has_no_differences() =>
        Assert.Empty(Differences(Output(Finding, settings: 1), Expected(Finding, settings: 1)));

    [Fact]
    public void Members_that_the_expectation_leaves_out_are_not_compared() =>
        Assert.Empty(Differences(Output(Finding), Expected("""{"check":"vacuum-above-ceiling","value":{"unit":"mm[Hg]"}}""")));

    [Fact]
    public void Trailing_zeros_do_not_make_another_number() =>
        Assert.Empty(Differences(Output(Finding.Replace("220", "220.0", StringComparison.Ordinal)), Expected(Finding)));

    [Fact]
    public void A_wrong_member_is_named_with_both_values() =>
        Assert.Equal(
            ["findings: vacuum-above-ceiling, Patient/a, 2026-03-10T08:00:00Z value value: expected 220, got 221"],
            Differences(Output(Finding.Replace("220", "221", StringComparison.Ordinal)), Expected(Finding)));

    [Fact]
    public void A_member_that_is_not_there_is_named() =>
        Assert.Equal(
            ["findings: pass-too-long, Patient/a, 2026-03-10T09:00:00Z severity: expected \"high\", but there is none"],
            Differences(Output(Other), Expected("""{"check":"pass-too-long","severity":"high"}""")));

    [Fact]
    public void Null_is_expected_where_null_is_written() =>
        Assert.Equal(
            ["findings: vacuum-above-ceiling, Patient/a, 2026-03-10T08:00:00Z value: expected null, got {\"value\":220,\"unit\":\"mm[Hg]\"}"],
            Differences(Output(Finding), Expected("""{"check":"vacuum-above-ceiling","value":null}""")));

    [Fact]
    public void A_finding_that_is_not_expected_is_a_difference() =>
        Assert.Equal(
            ["findings: found but not expected: pass-too-long, Patient/a, 2026-03-10T09:00:00Z"],
            Differences(Output(Finding + "," + Other), Expected(Finding)));

    [Fact]
    public void A_finding_that_is_missing_is_a_difference() =>
        Assert.Equal(
            ["findings: expected but not found: pass-too-long, Patient/a, 2026-03-10T09:00:00Z"],
            Differences(Output(Finding), Expected(Finding + "," + Other)));

    [Fact]
    public void An_exact_match_is_not_taken_by_a_wrong_entry_before_it()
    {
        var wrong = Finding.Replace("08:00", "07:00", StringComparison.Ordinal);
        Assert.Equal(
            ["findings: found but not expected: vacuum-above-ceiling, Patient/a, 2026-03-10T07:00:00Z"],
            Differences(Output(wrong + "," + Finding), Expected(Finding)));
    }

    [Fact]
    public void The_order_of_anchors_counts() =>
        Assert.Single(Differences(Output("""{"check":"c","about":["Observation/a","Observation/b"]}"""), Expected("""{"check":"c","about":["Observation/b","Observation/a"]}""")));

    [Fact]
    public void Counts_of_what_was_judged_are_compared() =>
        Assert.Equal(["judged settings: expected 2, got 1"], Differences(Output("", settings: 1), Expected("", settings: 2)));

    [Fact]
    public void Problems_and_what_could_not_be_told_are_compared() =>
        Assert.Equal(
            ["cannotTell: found but not expected: pass-too-long, birth date", "problems: found but not expected: AG2101, Observation/x"],
            Differences(
                Output("", cannotTell: """{"check":"pass-too-long","missing":"birth date"}""", problems: """{"code":"AG2101","where":"Observation/x","why":"…"}"""),
                Expected("")));

    [Fact]
    public void A_list_that_is_not_printed_is_a_difference() =>
        Assert.Equal(["problems: missing"], Differences("""{"judged":{"passes":0,"sessions":0,"orders":0,"settings":0},"findings":[],"cannotTell":[]}""", Expected("")));

    [Theory]
    [InlineData("not JSON")]
    [InlineData("[]")]
    [InlineData("")]
    public void Output_that_is_no_JSON_object_is_one_difference(string printed) => Assert.Single(Differences(printed, Expected("")));

    private static IReadOnlyList<string> Differences(string printed, ExpectedRun expected) => CheckComparer.Differences(printed, expected);

    private static string Output(string findings, int settings = 0, string cannotTell = "", string problems = "") =>
        $$"""{"ruleSet":{},"judged":{"passes":0,"sessions":0,"orders":0,"settings":{{settings}}},"findings":[{{findings}}],"cannotTell":[{{cannotTell}}],"orders":[],"problems":[{{problems}}]}""";

    private static ExpectedRun Expected(string findings, int settings = 0) => ExpectedScenario.Parse(
        $$"""
        {"why":"w","covers":[],"runs":[{"rules":"strict-ranges","asOf":null,"unknownAge":null,"exit":0,
        "judged":{"passes":0,"sessions":0,"orders":0,"settings":{{settings}}},"findings":[{{findings}}],"cannotTell":[],"problems":[]}]}
        """).Runs[0];
}
