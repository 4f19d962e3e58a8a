using System.Globalization;
using System.Net;
using AirwayGuard.Core.Findings;
using AirwayGuard.Storage.Auditing;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.LifeCycle;

/// <summary>
/// Eight hours in which the server does not answer while three patients are charted: afterwards everything is caught up as if it had
/// been judged in time, said to be late, and nothing that was over is shown as new.
/// </summary>
public sealed class OutageTests
{
    private const int First = 60, Last = First + (8 * 60), Often = 20;

    private static readonly string[] Patients = ["p", "q", "r"];

    [Fact]
    public async Task AfterEightHoursOfOutage_TheFindingsAreThoseOfARunWithoutOne()
    {
        await using var bench = await AfterOutageAsync();
        await using var without = await ChartAsync(isOut: false);

        var state = await bench.Ledger.StateAsync(Stop);
        Assert.Equal((0, 0, 0, 0), (state.PatientsWaiting, state.Pending, state.Unknown, state.Parked));
        foreach (var patient in Patients)
        {
            var found = await FoundAsync(bench, patient);
            Assert.True(found.Count > 20, $"{found.Count} findings");
            Assert.Equal(await FoundAsync(without, patient), found);
        }

        Assert.Equal(await StandingAsync(without), await StandingAsync(bench), StringComparer.Ordinal);
    }

    [Fact]
    public async Task WhatHappenedInTheOutage_IsMarkedLate_AndWhatHappensAfterItIsNot()
    {
        await using var bench = await AfterOutageAsync();
        await ChartAsync(bench, Last + 25, "after");
        await bench.RoundAsync(TimeSpan.FromMinutes(10));

        foreach (var patient in Patients)
        {
            var breaches = (await bench.FindingsAsync("Patient/" + patient)).Where(one => one.Kind == FindingKind.Occurrence && one.Check == "pass-too-long").ToList();
            Assert.Contains(breaches, one => one.Late);
            Assert.All(breaches, one => Assert.Equal(MinuteOf(one) is > First and < Last + 20 - 120, one.Late));
        }

        await using var without = await ChartAsync(isOut: false);
        Assert.DoesNotContain(await without.FindingsAsync(), one => one.Late);
    }

    [Fact]
    public async Task WhatWasOverBeforeItWasJudged_RaisesNoFlag_AndSaysWhy()
    {
        await using var bench = await AfterOutageAsync();

        foreach (var patient in Patients)
        {
            var spells = (await bench.FindingsAsync("Patient/" + patient)).Where(one => one is { Kind: FindingKind.Spell, Check: "vacuum-above-ceiling" } && MinuteOf(one) > First).ToList();
            Assert.Contains(spells, one => one.State == FindingState.Cleared);
            Assert.Contains(spells, one => one.State == FindingState.Open);
            Assert.All(spells, one => Assert.Equal(one.State == FindingState.Open ? Withholding.None : Withholding.OverBeforeJudged, FindingContent.Read(one.Content.Span).Withheld));
            var shown = (await bench.FlagsAsync()).Select(flag => flag.Key()).ToHashSet(StringComparer.Ordinal);
            Assert.All(spells, one => Assert.Equal(one.State == FindingState.Open, shown.Contains(one.Key.ToString())));
        }
    }

    [Fact]
    public async Task EachPatientsFindings_AreDecidedInTheOrderOfTheirEffectiveTimes()
    {
        await using var bench = await AfterOutageAsync();

        var order = (await bench.AuditAsync("finding-raise")).Select(entry => Guid.Parse(entry.Subject)).ToList();
        foreach (var patient in Patients)
        {
            var times = (await bench.FindingsAsync("Patient/" + patient)).Where(one => one.Kind == FindingKind.Occurrence && order.Contains(one.Key))
                .OrderBy(one => order.IndexOf(one.Key)).Select(one => one.First).ToList();
            Assert.True(times.Count > 20, $"{times.Count} findings");
            Assert.Equal(times.Order(), times);
        }
    }

    [Fact]
    public async Task WhatHappenedLately_AndWhatStands_IsSentBeforeHistory()
    {
        await using var bench = await AfterOutageAsync();

        var records = new Dictionary<string, FindingRecord>(StringComparer.Ordinal);
        foreach (var patient in Patients)
        {
            foreach (var one in (await bench.FindingsAsync("Patient/" + patient)).Where(one => one.Kind != FindingKind.CannotTell && MinuteOf(one) > First))
            {
                records[one.Key.ToString()] = one;
            }
        }

        // Judged twenty minutes after the last of it.
        var sent = (await bench.AuditAsync("sent")).Where(entry => entry.Detail.Contains("confirmed", StringComparison.Ordinal)).Select(entry => records.GetValueOrDefault(entry.Subject)).OfType<FindingRecord>()
            .Select(one => one.Kind == FindingKind.Spell || MinuteOf(one) >= Last + 20 - 120).ToList();
        Assert.Contains(false, sent);
        Assert.Equal(sent.OrderDescending(), sent);
    }

    [Fact]
    public async Task ThePatientWhoseChartingBeganFirst_IsJudgedFirst_WhateverTheOrderOfArrival()
    {
        await using var bench = await AfterOutageAsync(lateEntry: true);

        var raised = await bench.AuditAsync("finding-raise");
        var firsts = new List<(string Patient, long At)>();
        foreach (var patient in Patients)
        {
            var keys = (await bench.FindingsAsync("Patient/" + patient)).Where(one => one.Kind != FindingKind.CannotTell && MinuteOf(one) > First).Select(one => one.Key.ToString()).ToHashSet(StringComparer.Ordinal);
            firsts.Add((patient, raised.First(entry => keys.Contains(entry.Subject)).Number));
        }

        Assert.Equal(["r", "q", "p"], firsts.OrderBy(one => one.At).Select(one => one.Patient), StringComparer.Ordinal);
    }

    [Fact]
    public async Task TheAuditTrailIsSound_AndNothingIsDoubled()
    {
        await using var bench = await AfterOutageAsync();

        await bench.NothingIsDoubledAsync();
        await bench.StopAsync();
        using var trail = AuditTrailFile.Open(Path.Combine(bench.DataFolder, "ledger"));
        Assert.Equal(AuditFault.None, (await AuditChain.Verify(trail.ReadAsync(Stop), [], Stop)).Fault);
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static Task<PipelineBench> AfterOutageAsync(bool lateEntry = false) => ChartAsync(isOut: true, lateEntry);

    /// <param name="lateEntry">The patients' charts are written up one after the other at the end of the outage, the last patient's earliest.</param>
    private static async Task<PipelineBench> ChartAsync(bool isOut, bool lateEntry = false)
    {
        var bench = await PipelineBench.StartAsync(Ward.Morning);
        foreach (var patient in Patients)
        {
            await bench.PutAsync(Of(Ward.Patient, patient));
            await bench.PutAsync(Of(Ward.Pass(patient + "before", 25, 10), patient));
        }

        await bench.RoundAsync(TimeSpan.FromMinutes(First));
        bench.Wire.Fault = isOut ? static (request, _) => Task.FromResult(new HttpResponseMessage(HttpStatusCode.ServiceUnavailable) { RequestMessage = request }) : null;
        for (var minute = First + Often; minute <= Last; minute += Often)
        {
            bench.Clock.Now += TimeSpan.FromMinutes(Often);
            if (!lateEntry)
            {
                await ChartAsync(bench, minute, minute.ToString(CultureInfo.InvariantCulture));
            }

            await bench.RoundAsync(TimeSpan.Zero);
        }

        if (lateEntry)
        {
            await ChartLateAsync(bench);
        }

        bench.Wire.Fault = null;
        await bench.RoundAsync(TimeSpan.FromMinutes(20));
        return bench;
    }

    // Two long passes in three, a vacuum that goes over the ceiling and comes back, and stands over it at the end.
    private static async Task ChartAsync(PipelineBench bench, int minute, string id)
    {
        foreach (var patient in Patients)
        {
            await bench.PutAsync(Of(Ward.Pass($"{patient}pass{id}", (minute / Often) % 3 == 0 ? 10 : 25, minute - 2), patient));
            await bench.PutAsync(Of(Ward.Vacuum($"{patient}vacuum{id}", minute >= Last || (minute / Often) % 4 == 0 ? 220 : 110, minute - 1), patient));
        }
    }

    private static async Task ChartLateAsync(PipelineBench bench)
    {
        for (var i = 0; i < Patients.Length; i++)
        {
            await bench.PutAsync(Of(Ward.Pass($"{Patients[i]}late", 25, First + 100 - (i * 10)), Patients[i]));
            bench.Clock.Now += TimeSpan.FromMinutes(1);
        }

        bench.Clock.Now += TimeSpan.FromHours(2);
    }

    private static string Of(string json, string patient) =>
        json.Replace("Patient/p", "Patient/" + patient, StringComparison.Ordinal).Replace("\"id\":\"p\"", $"\"id\":\"{patient}\"", StringComparison.Ordinal);

    private static double MinuteOf(FindingRecord record) => (new DateTimeOffset(record.Latest, TimeSpan.Zero) - Ward.Morning).TotalMinutes;

    private static async Task<IReadOnlyList<(Guid Key, string Check, FindingKind Kind, FindingState State, Guid Parent, int Count, long First, long Latest)>> FoundAsync(PipelineBench bench, string patient) =>
        [.. (await bench.FindingsAsync("Patient/" + patient)).OrderBy(one => one.Key).Select(one => (one.Key, one.Check, one.Kind, one.State, one.Parent, one.Count, one.First, one.Latest))];

    private static async Task<IReadOnlyList<string>> StandingAsync(PipelineBench bench) =>
        [.. (await bench.AllAsync("Flag")).Where(flag => flag.Status() == "active").Select(flag => flag.Key()).Order(StringComparer.Ordinal)];
}
