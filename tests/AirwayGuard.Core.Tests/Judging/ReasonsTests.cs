using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>Where a reason may be charted so that the checks that take one let it pass or end, in both rule sets.</summary>
public sealed class ReasonsTests
{
    public static TheoryData<string> Checks => ["deep-technique-without-reason", "saline-without-reason"];

    [Theory]
    [MemberData(nameof(Checks))]
    public void In_the_pass_or_its_session_it_lets_it_pass(string check)
    {
        Assert.StartsWith("breach", Acted(check).SaidByBoth(check), StringComparison.Ordinal);
        Assert.Equal("", Acted(check, (Concepts.AllowanceReason, Answer("emergency"))).SaidByBoth(check));
        Assert.Equal("", Acted(check).Pass("t", "10:04", (Concepts.AllowanceReason, Answer("emergency"))).SaidByBoth(check));
        Assert.Equal("", Acted(check).Pass("t", "10:04", (Concepts.SecretionConsistency, Answer("thick"))).SaidByBoth(check));
    }

    // To the end of the 24th hour after the session, and not before it.
    [Theory]
    [InlineData("09:30", "breach")]
    [InlineData("11:00", "cleared")]
    [InlineData("2 10:00", "cleared")]
    [InlineData("2 10:00:01", "breach")]
    public void Charted_within_a_day_after_it_ends_it(string at, string said)
    {
        foreach (var check in new[] { "deep-technique-without-reason", "saline-without-reason" })
        {
            Assert.StartsWith(said, Acted(check).Row("r", Concepts.AllowanceReason, at, Answer("other-with-text")).SaidByBoth(check), StringComparison.Ordinal);
        }
    }

    [Theory]
    [MemberData(nameof(Checks))]
    public void An_answer_that_is_no_reason_lets_nothing_pass(string check)
    {
        Assert.StartsWith("breach", Acted(check, (Concepts.AllowanceReason, FactValue.Text)).SaidByBoth(check), StringComparison.Ordinal);
        Assert.StartsWith("breach", Acted(check, (Concepts.SecretionConsistency, Answer("thin"))).SaidByBoth(check), StringComparison.Ordinal);
    }

    // Only a charted circumstance makes a limit stricter, and only for the time it holds.
    [Theory]
    [InlineData(null, "")]
    [InlineData("07:00", "breach 11")]
    [InlineData("10:30", "")]
    public void A_circumstance_tightens_from_when_it_is_charted(string? monitoredAt, string said)
    {
        var chart = Adult().Pass("s", "10:00", (Concepts.PassDuration, Number(11, Unit.Second)));
        _ = monitoredAt is null ? chart : chart.Row("i", Concepts.IntracranialPressureMonitored, monitoredAt, FactValue.Yes);

        Assert.Equal(said, chart.SaidByBoth("pass-too-long"));
    }

    // 130 is within both adult ceilings and above the 120 of monitored intracranial pressure.
    [Theory]
    [InlineData("07:00", null, "breach 130")]
    [InlineData("07:00", "09:00", "")] // charted as over
    public void The_ceiling_tightens_until_the_circumstance_is_charted_as_over(string from, string? until, string said)
    {
        var chart = Adult().Row("i", Concepts.IntracranialPressureMonitored, from, FactValue.Yes).Row("v", Concepts.VacuumPressure, "10:00", Number(130, Unit.MmHg));
        _ = until is null ? chart : chart.Row("o", Concepts.IntracranialPressureMonitored, until, FactValue.No);

        Assert.Equal(said, chart.SaidByBoth("vacuum-above-ceiling"));
    }

    // An infant's pass with deep suction, or with saline.
    private static ChartBuilder Acted(string check, params (Concept Concept, FactValue Value)[] with) => Infant().Pass(
        "s", "10:00", [check == "saline-without-reason" ? (Concepts.SalineInstilled, FactValue.Yes) : (Concepts.DepthTechnique, Answer("deep")), .. with]);
}
