using System.Text;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.Intake;
using Microsoft.Extensions.Logging.Abstractions;
using Xunit;

namespace AirwayGuard.Worker.Tests.Intake;

/// <summary>A resource that cannot be read is kept and parked, and holds up nothing.</summary>
public sealed class UnreadableArrivalTests
{
    [Fact]
    public async Task WhatTheReaderCannotReadIsParkedWithItsCode_AndTheRestIsJudged()
    {
        var stop = TestContext.Current.CancellationToken;
        await using var bench = await PipelineBench.StartAsync(Ward.Morning.AddHours(1));
        using var board = new NoticeBoard();
        var source = new FixedSource(("Patient", "p", Ward.Patient), ("Observation", "bad", """{"resourceType":"Observation","id":"bad","""), ("Observation", "o1", Ward.Vacuum("o1", 220, 10)));
        var sweep = new SweepStep(bench.Ledger, source, new FhirArrivalReader(ShippedMaps.StandardCodes), board, new IntakeHealth(), new IntakeOptions(), bench.Clock, NullLogger<SweepStep>.Instance);

        Assert.Equal(StepResult.DidWork, await sweep.StepAsync(stop));
        await bench.UntilIdleAsync(() => bench.Judge);

        var parked = Assert.Single(await bench.Ledger.ParkedAsync(stop));
        Assert.Equal(("AG2003", "Observation", "bad"), (parked.Code, parked.Where, (await bench.Ledger.ArrivalAsync(parked.Arrival!.Value, stop))!.Id));
        Assert.Contains(await bench.FindingsAsync(), record => record.Check == "vacuum-above-ceiling");
    }

    [Fact]
    public async Task WhatTheReaderHasAFaultOnIsParked_AndTheRestIsJudged()
    {
        var stop = TestContext.Current.CancellationToken;
        await using var bench = await PipelineBench.StartAsync(Ward.Morning.AddHours(1));
        using var board = new NoticeBoard();
        var source = new FixedSource(("Patient", "p", Ward.Patient), ("Observation", "bad", Ward.Vacuum("bad", 230, 5)), ("Observation", "o1", Ward.Vacuum("o1", 220, 10)));
        var sweep = new SweepStep(bench.Ledger, source, new FaultyReader(), board, new IntakeHealth(), new IntakeOptions(), bench.Clock, NullLogger<SweepStep>.Instance);

        Assert.Equal(StepResult.DidWork, await sweep.StepAsync(stop));
        await bench.UntilIdleAsync(() => bench.Judge);

        var parked = Assert.Single(await bench.Ledger.ParkedAsync(stop));
        Assert.Equal(("AG4006", "Observation", "bad"), (parked.Code, parked.Where, (await bench.Ledger.ArrivalAsync(parked.Arrival!.Value, stop))!.Id));
        Assert.Contains(await bench.FindingsAsync(), record => record.Check == "vacuum-above-ceiling");
    }

    private sealed class FaultyReader : IArrivalReader
    {
        private readonly FhirArrivalReader _inner = new(ShippedMaps.StandardCodes);

        public string Version => _inner.Version;

        public void Read(Arrival arrival, Core.Charting.IEntityInterner entities, Reading into)
        {
            _inner.Read(arrival, entities, into);
            if (arrival.Id == "bad")
            {
                throw new InvalidOperationException("A fault of the reader.");
            }
        }
    }

    private sealed class FixedSource(params (string Type, string Id, string Body)[] resources) : IArrivalSource
    {
        public IReadOnlyList<string> Types => ["all"];

        public IReadOnlyList<string> Deletions => [];

        public bool IsIndispensable(string type) => false;

        public ValueTask<SourcePage> PageAsync(string type, DateTimeOffset? since, string? next, CancellationToken stop) => ValueTask.FromResult(new SourcePage(
            [.. resources.Select(one => new Arrival(ArrivalKind.Resource, PipelineBench.Server, one.Type, one.Id, "1", Charted.Morning, KnownBy.ServersStamp, Encoding.UTF8.GetBytes(one.Body)))],
            null, Charted.Morning, null, null));
    }
}
