using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>What was charted with a pass and cannot be read leaves open what hangs on it, and takes back no breach by what can be read.</summary>
public sealed class UnreadableAnswersTests
{
    private const string Passes = "too-many-passes", Long = "pass-too-long", Deep = "inserted-too-deep", Technique = "deep-technique-without-reason";
    private const string Surfactant = "suction-soon-after-surfactant", Blood = "blood-stained-secretions-trend";

    [Fact]
    public void A_count_of_passes_that_cannot_be_read_may_have_been_too_many()
    {
        Assert.Equal("open PassCount", Adult().Pass("s", "10:00", Count(FactValue.Unreadable)).Judge().Said(Passes));
        Assert.Equal("open PassCount", Adult().Pass("s", "10:00", Count(FactValue.Unreadable), Count(Number(2, Unit.Count))).Judge().Said(Passes));
        Assert.Equal("breach 4", Adult().Pass("s", "10:00", Count(FactValue.Unreadable), Count(Number(4, Unit.Count))).Judge().Said(Passes));
        Assert.Equal("", Adult().Pass("s", "10:00").Judge().Said(Passes));
    }

    [Fact]
    public void A_duration_that_breaches_beside_it_stays_a_breach() => Assert.Equal(
        "breach 40", Adult().Pass("s", "10:00", Count(FactValue.Unreadable), (Concepts.PassDuration, Number(40, Unit.Second))).Judge().Said(Long));

    // Adults: more than 1 cm beyond tube and adapter, here 32 cm.
    [Fact]
    public void A_depth_that_cannot_be_read_is_open()
    {
        Assert.Equal("open InsertionDepth", Lengths().Pass("s", "10:00", Depth(FactValue.Unreadable)).Judge().Said(Deep));
        Assert.Equal("open InsertionDepth", Lengths().Pass("s", "10:00", Depth(FactValue.Unreadable), Depth(Number(30, Unit.Centimetre))).Judge().Said(Deep));
        Assert.Equal("breach 4", Lengths().Pass("s", "10:00", Depth(FactValue.Unreadable), Depth(Number(36, Unit.Centimetre))).Judge().Said(Deep));
    }

    [Fact]
    public void A_technique_that_cannot_be_read_may_have_been_deep()
    {
        Assert.Equal("open DepthTechnique", Neonate().Pass("s", "10:00", How(FactValue.Unreadable)).Judge().Said(Technique));
        Assert.Equal("open DepthTechnique", Neonate().Pass("s", "10:00", How(FactValue.Unreadable), How(Answer("shallow"))).Judge().Said(Technique));
        Assert.Equal("breach deep", Neonate().Pass("s", "10:00", How(FactValue.Unreadable), How(Answer("deep"))).Judge().Said(Technique));
        Assert.Equal("", Neonate().Pass("s", "10:00", How(FactValue.Unreadable), (Concepts.AllowanceReason, Answer("emergency"))).Judge().Said(Technique));
        Assert.Equal("", Adult().Pass("s", "10:00", How(FactValue.Unreadable)).Judge().Said(Technique));
    }

    [Fact]
    public void It_is_open_for_the_other_passes_of_its_session_that_say_nothing()
    {
        var session = Neonate().Pass("s", "10:00", How(FactValue.Unreadable)).Pass("t", "10:02", How(Answer("shallow"))).Pass("u", "10:04").Judge();
        Assert.Equal(1, session.CannotTell.Single(one => one.Rule.Id == Technique).Count);

        Assert.Equal(2, Neonate().Pass("s", "10:00", How(FactValue.Unreadable)).Pass("t", "10:02").Judge().CannotTell.Single(one => one.Rule.Id == Technique).Count);
    }

    // Neonates: less than 8 h after surfactant.
    [Theory]
    [InlineData("05:00", null, "open Surfactant")]
    [InlineData("01:59", null, "")]
    [InlineData("05:00", "01:00", "open Surfactant")]
    [InlineData("01:30", "01:00", "")]
    [InlineData("05:00", "03:00", "breach 7")]
    [InlineData("05:00", "05:00", "breach 5")]
    public void Surfactant_that_cannot_be_read_may_have_been_given(string unread, string? given, string expected)
    {
        var chart = Neonate().Row("u", Concepts.SurfactantGiven, unread, FactValue.Unreadable);
        chart = given is null ? chart : chart.Row("g", Concepts.SurfactantGiven, given, FactValue.Yes);

        Assert.Equal(expected, chart.Pass("s", "10:00").Judge().Said(Surfactant));
    }

    [Fact]
    public void Secretions_that_cannot_be_read_may_have_been_blood()
    {
        Assert.Equal("open SecretionAppearance", Looked([null]).Judge().Said(Blood));
        Assert.Equal("open SecretionAppearance", Looked("clear", null).Judge().Said(Blood));
        Assert.Equal(3, Looked(null, "clear", "clear", "clear").Judge().CannotTell.Single(one => one.Rule.Id == Blood).Count);
        Assert.StartsWith("breach", Looked("blood-streaked", "blood-streaked", null).Judge().Said(Blood), StringComparison.Ordinal);
        Assert.StartsWith("breach", Looked("blood-streaked", null, "clear", "blood-streaked").Judge().Said(Blood), StringComparison.Ordinal);
    }

    [Fact]
    public void Beside_blood_of_the_same_session_they_take_nothing_back_and_they_clear_nothing()
    {
        var both = Adult().Pass("s", "10:00", (Concepts.SecretionAppearance, FactValue.Unreadable), (Concepts.SecretionAppearance, Answer("frank-blood")));
        Assert.Equal("breach 1", both.Judge().Said(Blood));

        Assert.StartsWith("cleared 1", Looked("frank-blood", "clear", "clear", "clear").Judge().Said(Blood), StringComparison.Ordinal);
        Assert.StartsWith("breach 1", Looked("frank-blood", "clear", null, "clear", "clear").Judge().Said(Blood), StringComparison.Ordinal);
    }

    [Fact]
    public void A_depth_or_a_technique_that_cannot_be_read_makes_no_pass()
    {
        var found = Lengths().Row("d", Concepts.InsertionDepth, "10:00", FactValue.Unreadable).Row("t", Concepts.DepthTechnique, "11:00", FactValue.Unreadable).Judge();

        Assert.Empty(found.Findings);
        Assert.Empty(found.CannotTell);
    }

    private static (Concept, FactValue) Count(FactValue value) => (Concepts.PassCount, value);

    private static (Concept, FactValue) Depth(FactValue value) => (Concepts.InsertionDepth, value);

    private static (Concept, FactValue) How(FactValue value) => (Concepts.DepthTechnique, value);

    private static ChartBuilder Lengths() => Adult().Row("k", Concepts.AirwayType, "08:00", Answer("tracheal-tube"))
        .Row("l", Concepts.TubeLength, "08:00", Number(28, Unit.Centimetre)).Row("a", Concepts.AdapterLength, "08:00", Number(4, Unit.Centimetre));

    // A session an hour from 09:00 on; null is what cannot be read.
    private static ChartBuilder Looked(params string?[] sessions)
    {
        var chart = Adult();
        for (var i = 0; i < sessions.Length; i++)
        {
            chart = chart.Pass($"s{i}", $"{9 + i:00}:00", (Concepts.SecretionAppearance, sessions[i] is { } looked ? Answer(looked) : FactValue.Unreadable));
        }

        return chart;
    }
}
