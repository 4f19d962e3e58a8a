using System.Text.Json.Nodes;
using Xunit;

namespace AirwayGuard.TestKit.Histories;

/// <summary>A judge of whole histories: the reference, or one behind FHIR through <see cref="HistoryProperties.Behind"/>.</summary>
public delegate ReferenceReport JudgeHistory(History history, string ruleSet, DateTimeOffset? asOf, UnknownAge unknownAge);

/// <summary>A judge fed in batches: its report after each of them.</summary>
public delegate IReadOnlyList<ReferenceReport> JudgeBatches(IReadOnlyList<IReadOnlyList<string>> batches, string ruleSet);

/// <summary>What must hold of any judge, for one random history each; a failure names the seed.</summary>
public static class HistoryProperties
{
    /// <summary>The reference itself.</summary>
    public static readonly JudgeHistory Reference = (history, ruleSet, asOf, unknownAge) => ReferenceJudge.Judge(history, ruleSet, asOf, unknownAge);

    /// <summary>A judge of histories made of one that reads FHIR.</summary>
    public static JudgeHistory Behind(JudgeResources judge) => (history, ruleSet, asOf, unknownAge) => judge(HistoryRenderer.Render(history), ruleSet, asOf, unknownAge);

    /// <summary>1: arrivals in any order, batched and repeated, end in the same findings.</summary>
    public static void OrderBatchesAndRepeatsChangeNothing(JudgeResources judge, int seed)
    {
        var random = new Random(seed);
        var resources = HistoryRenderer.Render(WithoutSameSavedVersions(HistoryGenerator.Next(seed)));
        var repeated = resources.Concat(resources.Where(_ => random.Next(4) == 0)).ToArray();
        random.Shuffle(repeated);
        var batched = repeated.Chunk(random.Next(1, 20)).Select(AsBundle).ToList();
        Same(seed, judge(resources, RuleSet(seed), null, UnknownAge.CannotTell), judge(batched, RuleSet(seed), null, UnknownAge.CannotTell));
    }

    /// <summary>2: the same vacuum in any unit has the same verdict; values stay 2 mm[Hg] away from every edge (tolerance 0.5).</summary>
    public static void UnitsChangeNoVerdict(JudgeHistory judge, int seed)
    {
        var history = HistoryGenerator.Next(seed).AwayFromEdges();
        var plain = judge(history, RuleSet(seed), null, UnknownAge.CannotTell);
        foreach (var unit in ReferenceNumber.Pressures.Keys)
        {
            Same(seed, WithoutValues(plain), WithoutValues(judge(history.InUnit(unit), RuleSet(seed), null, UnknownAge.CannotTell)));
        }
    }

    /// <summary>3: times moved, or told in another offset, give the same verdicts where no event changes its age band.</summary>
    public static void TimeShiftsChangeNoVerdict(JudgeHistory judge, int seed)
    {
        var random = new Random(seed);
        var history = HistoryGenerator.Next(seed);
        var shift = random.Next(2) == 0 ? TimeSpan.Zero : TimeSpan.FromMinutes(random.Next(-3000, 3000));
        var offset = TimeSpan.FromMinutes(15 * random.Next(-48, 57));
        var moved = history.MoveTimes(t => (t + shift).ToOffset(offset));
        if (!ReferenceJudge.Bands(history).SequenceEqual(ReferenceJudge.Bands(moved), StringComparer.Ordinal))
        {
            return;
        }

        var expected = judge(history, RuleSet(seed), null, UnknownAge.CannotTell);
        Same(seed, expected with
        {
            Findings = [.. expected.Findings.Select(f => f with { At = f.At + shift, Latest = f.Latest + shift })],
            CannotTell = [.. expected.CannotTell.Select(c => c with { At = c.At + shift })],
        }, judge(moved, RuleSet(seed), null, UnknownAge.CannotTell));
    }

    /// <summary>
    /// 4: a fact taken away turns no breach or cannot-tell into a pass, unless it was what breached, set a stricter limit or band,
    /// made the check apply, or made the value doubtful: then <see cref="MissingFacts"/> says so.
    /// </summary>
    public static void MissingFactsNeverPass(JudgeHistory judge, int seed)
    {
        var history = HistoryGenerator.Next(seed);
        var before = judge(history, RuleSet(seed), null, UnknownAge.CannotTell);
        var now = new KnownCharting(history, null).Now;
        foreach (var row in history.Rows.DistinctBy(r => r.Id, StringComparer.Ordinal))
        {
            var versions = history.Rows.Where(r => r.Id == row.Id).ToList();
            var without = history.Without(row.Id);
            var setsTheTime = now > new KnownCharting(without, null).Now;
            var after = judge(without, RuleSet(seed), null, UnknownAge.CannotTell);
            foreach (var check in ReferenceReport.Checks.Where(c => !MissingFacts.MayEnd(c, versions, setsTheTime)))
            {
                Assert.True(Troubles(after, check) >= Troubles(before, check), $"seed {seed}: without a row of {row.Concept} ({row.Id}) {check} has less to say");
            }
        }
    }

    /// <summary>5: entered in error equals never charted.</summary>
    public static void EnteredInErrorIsNeverCharted(JudgeHistory judge, int seed)
    {
        var history = HistoryGenerator.Next(seed);
        var random = new Random(seed);
        foreach (var id in history.Rows.Where(_ => random.Next(4) == 0).Select(r => r.Id))
        {
            Same(seed, judge(history.Without(id), RuleSet(seed), null, UnknownAge.CannotTell), judge(history.InError(id), RuleSet(seed), null, UnknownAge.CannotTell));
        }
    }

    /// <summary>6: what begins after the time of judging changes nothing that is judged at it.</summary>
    public static void LaterFactsChangeNothingBefore(JudgeHistory judge, int seed)
    {
        var history = HistoryGenerator.Next(seed);
        var instants = history.Instants().Concat(history.Stays.Select(stay => stay.Start)).Order().ToList();
        var asOf = instants[new Random(seed).Next(instants.Count)];
        Same(seed, judge(history.Until(asOf), RuleSet(seed), asOf, UnknownAge.CannotTell), judge(history, RuleSet(seed), asOf, UnknownAge.CannotTell));
    }

    /// <summary>7: another patient's facts change nothing.</summary>
    public static void AnotherPatientChangesNothing(JudgeResources judge, int seed)
    {
        var (my, other) = (HistoryGenerator.Next(seed), WithoutOutlets(HistoryGenerator.Next(seed + 1_000_003, "p2")));
        var (mine, others) = (HistoryRenderer.Render(my), HistoryRenderer.Render(other));
        // One time of judging for both: of files alone it is the latest of all of them.
        var asOf = new[] { my, other }.Max(h => new KnownCharting(h, null).Now);
        var alone = judge(mine, RuleSet(seed), asOf, UnknownAge.CannotTell);
        var together = judge([.. mine, .. others], RuleSet(seed), asOf, UnknownAge.CannotTell);
        // Of a regulator that nobody uses each is told by itself, no patient's: those of the other come with the other's devices.
        Same(seed, WithoutOthers(alone), WithoutOthers(together) with { Judged = alone.Judged });
    }

    /// <summary>8 and 6: judged batch by batch, each report equals judging all that had come by then at once.</summary>
    public static void BatchByBatchEqualsAtOnce(JudgeBatches incremental, JudgeResources judge, int seed)
    {
        var random = new Random(seed);
        // A judge fed in batches is one of patients.
        var resources = HistoryRenderer.Render(WithoutOutlets(HistoryGenerator.Next(seed)));
        var batches = resources.Chunk(random.Next(1, 12)).Select(b => (IReadOnlyList<string>)b).ToList();
        var reports = incremental(batches, RuleSet(seed));
        Assert.Equal(batches.Count, reports.Count);
        for (var known = 1; known <= batches.Count; known++)
        {
            // Who was known first names a subject, so the resources named may differ; what is said may not.
            Same(seed, WithoutAbout(judge([.. batches.Take(known).SelectMany(b => b)], RuleSet(seed), null, UnknownAge.CannotTell)), reports[known - 1]);
        }
    }

    /// <summary>9: the judge, asked for all checks, equals the reference in each; a failing history is made small first.</summary>
    public static void EqualsTheReference(JudgeResources judge, int seed)
    {
        var unknownAge = seed % 7 == 0 ? UnknownAge.StrictestBand : UnknownAge.CannotTell;
        IReadOnlyList<string> Differences(History h) =>
            ReportDifference.Between(ReferenceJudge.Judge(h, RuleSet(seed), null, unknownAge, new() { SilentToo = true }), judge(HistoryRenderer.Render(h), RuleSet(seed), null, unknownAge));
        var history = HistoryGenerator.Next(seed);
        if (Differences(history).Count > 0)
        {
            var small = HistoryShrinker.Shrink(history, h => Differences(h).Count > 0);
            Assert.Fail($"seed {seed}, {RuleSet(seed)}, {unknownAge}:\n{string.Join('\n', Differences(small))}\n{string.Join('\n', HistoryRenderer.Render(small))}");
        }
    }

    private static int Troubles(ReferenceReport report, string check) =>
        report.Findings.Where(f => f.Check == check).Sum(f => f.Count) + report.CannotTell.Where(c => c.Check == check).Sum(c => c.Count);

    private static ReferenceReport WithoutValues(ReferenceReport report) =>
        report with { Findings = [.. report.Findings.Select(f => f with { Value = null, Unit = null })] };

    private static ReferenceReport WithoutOthers(ReferenceReport report) => report with
    {
        Findings = [.. report.Findings.Where(f => f.Patient == "Patient/p1")],
        CannotTell = [.. report.CannotTell.Where(c => c.Patient == "Patient/p1")],
    };

    private static ReferenceReport WithoutAbout(ReferenceReport report) =>
        report with { Findings = [.. report.Findings.Select(f => f with { About = [] })] };

    // Outlets are no patient's.
    private static History WithoutOutlets(History h) => h with { Rows = h.Rows.RemoveAll(r => r.Concept == "full-line-vacuum") };

    // Of versions saved at one instant the last read counts, so their order is no accident.
    private static History WithoutSameSavedVersions(History h) =>
        h with { Rows = [.. h.Rows.Reverse().DistinctBy(r => (r.Id, r.Saved)).Reverse()] };

    private static string AsBundle(string[] resources) => new JsonObject
    {
        ["resourceType"] = "Bundle",
        ["type"] = "collection",
        ["entry"] = new JsonArray([.. resources.Select(r => new JsonObject { ["resource"] = JsonNode.Parse(r) })]),
    }.ToJsonString();

    private static string RuleSet(int seed) => seed % 2 == 0 ? ReferenceJudge.StrictRanges : ReferenceJudge.Guideline2022;

    private static void Same(int seed, ReferenceReport expected, ReferenceReport actual)
    {
        var differences = ReportDifference.Between(expected, actual);
        Assert.True(differences.Count == 0, $"seed {seed}:\n{string.Join('\n', differences)}");
    }
}
