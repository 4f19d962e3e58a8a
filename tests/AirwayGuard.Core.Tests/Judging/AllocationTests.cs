using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;
using AirwayGuard.Rules;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>What judging allocates is owed to findings, never to rows: a stay twice as long costs not a byte more.</summary>
public sealed class AllocationTests
{
    private const int Passes = 150, Warmups = 20;

    private static readonly Dictionary<string, Action<ChartBuilder, string, string>> WaysOfCharting = new(StringComparer.Ordinal)
    {
        ["suction-pass rows"] = (chart, id, at) => Values(chart.Row("s" + id, Concepts.SuctionPass, at, FactValue.Absent), id, at),
        ["Procedures"] = (chart, id, at) => Values(chart.Procedure("s" + id, at, uses: ["reg"]), id, at, act: "s" + id),
        ["Procedures with a parent"] = (chart, id, at) => Values(chart.Procedure("s" + id, at, parent: "p" + id), id, at, act: "s" + id),
        ["rows of one instant"] = (chart, id, at) => Values(chart, id, at),
        ["rows with a grouping key"] = (chart, id, at) => Values(chart, id, at, group: "g" + id),
        ["rows of a device"] = (chart, id, at) => Values(chart, id, at, device: "reg"),
    };

    [Theory]
    [InlineData("suction-pass rows")]
    [InlineData("Procedures")]
    [InlineData("Procedures with a parent")]
    [InlineData("rows of one instant")]
    [InlineData("rows with a grouping key")]
    [InlineData("rows of a device")]
    public void AStayTwiceAsLong_AllocatesNoMoreToJudge(string way)
    {
        var chartPass = WaysOfCharting[way];
        var once = BytesToJudge(Chart(Passes, chartPass));
        var twice = BytesToJudge(Chart(2 * Passes, chartPass));

        Assert.InRange(twice, 0, once);
    }

    /// <summary>Charted in full every check has something to judge, and none finds anything.</summary>
    [Fact]
    public void AStayChartedInFullTwiceAsLong_AllocatesNoMoreUnderAllChecks()
    {
        var rules = ShippedRuleSets.Load(ShippedRuleSets.Default).RuleSet!;
        var once = BytesToJudge(InFull(10), rules, "10 22:00");
        var twice = BytesToJudge(InFull(20), rules, "20 22:00");

        Assert.InRange(twice, 0, once);
    }

    [Theory]
    [InlineData(9, 0)]
    [InlineData(19, Passes)]
    public void TwiceAsManyBreachesWithStepsOfSeverity_AllocateNoMoreBeforeFindingsAreBornOfThem(int seconds, int breaches)
    {
        var once = BytesToCompare(Timed(Passes, seconds), breaches);
        var twice = BytesToCompare(Timed(2 * Passes, seconds), 2 * breaches);

        Assert.InRange(twice, 0, once);
    }

    private static JudgeSettings Settings => new(At("28 00:00"), WaitsAreOver: true, UnknownAge.CannotTell);

    private static ChartBuilder Chart(int passes, Action<ChartBuilder, string, string> chartPass)
    {
        var chart = new ChartBuilder().Born(1961, 5, 4)
            .Encounter("e", "06:00")
            .Device("reg", "vacuum-regulator")
            .Row("type", Concepts.AirwayType, "07:00", Answer("tracheal-tube"))
            .Row("size", Concepts.TubeInnerDiameter, "07:00", Number(8m, Unit.Millimetre));
        for (var pass = 0; pass < passes; pass++)
        {
            var at = string.Create(CultureInfo.InvariantCulture, $"{1 + (pass / 15)} {8 + (pass % 15)}:00");
            chartPass(chart, pass.ToString(CultureInfo.InvariantCulture), at);
        }

        return chart;
    }

    // A pass that keeps to the policy: 10 Fr in 8.0 mm, 9 s, oxygen before, no blood.
    private static void Values(ChartBuilder chart, string id, string at, string? device = null, string? act = null, string? group = null)
    {
        chart.Row("t" + id, Concepts.PassDuration, at, Number(9, Unit.Second), act: act, group: group)
            .Row("c" + id, Concepts.CatheterSize, at, Number(10, Unit.French), act: act, group: group)
            .Row("o" + id, Concepts.Preoxygenation, at, FactValue.Yes, act: act, group: group)
            .Row("a" + id, Concepts.SecretionAppearance, at, Answer("clear"), act: act, group: group)
            .Row("m" + id, Concepts.RegulatorMode, at, Answer("regulated"), device: device, act: act, group: group)
            .Row("v" + id, at, null, device, null, act, group,
                (Concepts.VacuumPressure, Number(120, Unit.MmHg)), (Concepts.VacuumReadingMethod, Answer("occluded")));
    }

    // Five passes a day, each with its vital signs, depth and indication.
    private static ChartBuilder InFull(int days)
    {
        var chart = Chart(0, (_, _, _) => { })
            .Row("length", Concepts.TubeLength, "07:00", Number(27, Unit.Centimetre))
            .Row("adapter", Concepts.AdapterLength, "07:00", Number(4, Unit.Centimetre));
        for (var pass = 0; pass < 5 * days; pass++)
        {
            var (day, hour, id) = (1 + (pass / 5), 8 + (3 * (pass % 5)), pass.ToString(CultureInfo.InvariantCulture));
            Values(chart.Row("s" + id, Concepts.SuctionPass, $"{day} {hour}:00", FactValue.Absent), id, $"{day} {hour}:00");
            chart.Row("i" + id, Concepts.SuctionIndication, $"{day} {hour}:00", Answer("visible-secretions"))
                .Row("y" + id, Concepts.SuctionSystem, $"{day} {hour}:00", Answer("closed"))
                .Row("d" + id, Concepts.InsertionDepth, $"{day} {hour}:00", Number(30, Unit.Centimetre))
                .Row("f" + id, Concepts.Fio2, $"{day} {hour - 1}:40", Number(40, Unit.Percent))
                .Row("g" + id, Concepts.Fio2, $"{day} {hour}:30", Number(40, Unit.Percent))
                .Row("u" + id, Concepts.CuffPressure, $"{day} {hour - 1}:00", Number(25, Unit.CmH2O));
            foreach (var minute in (int[])[-2, 2])
            {
                var at = string.Create(CultureInfo.InvariantCulture, $"{day} {(minute < 0 ? hour - 1 : hour)}:{(minute + 60) % 60:00}");
                chart.Row($"p{id}{minute}", Concepts.Spo2, at, Number(96, Unit.Percent)).Row($"h{id}{minute}", Concepts.HeartRate, at, Number(80, Unit.PerMinute));
            }
        }

        return chart;
    }

    private static long BytesToJudge(ChartBuilder chart, RuleSet? rules = null, string asOf = "28 00:00")
    {
        var settings = Settings with { AsOf = At(asOf) };
        using var lease = chart.Load();
        var judge = new PatientJudge(rules ?? QuietRules(chart, lease.View), chart.Entities);
        for (var i = 0; i < Warmups; i++)
        {
            var derived = judge.Judge(lease.View, settings);
            Assert.Empty(derived.Findings);
            Assert.Empty(derived.CannotTell);
        }

        var before = GC.GetAllocatedBytesForCurrentThread();
        judge.Judge(lease.View, settings);
        return GC.GetAllocatedBytesForCurrentThread() - before;
    }

    // The chart keeps to most checks and charts nothing for the others: what finds something, or cannot tell, allocates for it.
    private static RuleSet QuietRules(ChartBuilder chart, in Timeline timeline)
    {
        var rules = ShippedRuleSets.Load(ShippedRuleSets.Default).RuleSet!;
        var derived = new PatientJudge(rules, chart.Entities).Judge(timeline, Settings);
        var loud = derived.Findings.Select(finding => finding.Rule.Id).Concat(derived.CannotTell.Select(one => one.Rule.Id)).ToHashSet(StringComparer.Ordinal);
        Assert.DoesNotContain("vacuum-above-ceiling", loud);
        Assert.InRange(loud.Count, 0, 20);
        return rules with { Rules = [.. rules.Rules.Where(rule => !loud.Contains(rule.Id))] };
    }

    private static ChartBuilder Timed(int passes, int seconds) =>
        Chart(passes, (some, id, at) => some.Row("t" + id, Concepts.PassDuration, at, Number(seconds, Unit.Second)));

    private static long BytesToCompare(ChartBuilder chart, int breaches)
    {
        using var lease = chart.Load();
        var rules = ShippedRuleSets.Load(ShippedRuleSets.Default).RuleSet!;
        var care = new Care();
        CareAssembler.Assemble(lease.View, chart.Entities, care);
        var counted = new Counter(rules.Rules.IndexOf(rules.Find("pass-too-long")!));
        Judge.Run(lease.View, care, rules, Settings, ref counted);
        Assert.Equal(breaches, counted.Breaches);

        var before = GC.GetAllocatedBytesForCurrentThread();
        Judge.Run(lease.View, care, rules, Settings, ref counted);
        return GC.GetAllocatedBytesForCurrentThread() - before;
    }

    private struct Counter(int rule) : IVerdictSink
    {
        public int Breaches { get; private set; }

        public void Accept(in Verdict verdict) => Breaches += verdict.Rule == rule && verdict.Outcome == Outcome.Breach ? 1 : 0;
    }
}
