using System.Text;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.Intake;
using Microsoft.Extensions.Logging;
using Xunit;

namespace AirwayGuard.Worker.Tests.Intake;

/// <summary>Rows that are left out are told in the log and counted, without their names.</summary>
public sealed class ReadingTallyTests
{
    [Fact]
    public async Task RowsLeftOutAreToldOnceAPageByTypeCodeAndNumber_AndNotByName()
    {
        var stop = TestContext.Current.CancellationToken;
        await using var bench = await PipelineBench.StartAsync(Ward.Morning.AddHours(1));
        using var board = new NoticeBoard();
        var lines = new Lines();
        string[] rows =
        [
            Row("miller-1", "vacuum-pressure", """ "dataAbsentReason":{"text":"Mrs Miller asleep"} """), Row("miller-2", "vacuum-set", """ "note":[{"text":"x"}] """),
            Row("miller-3", "vacuum-presure", """ "valueQuantity":{"value":220,"unit":"mmHg"} """),
            Row("miller-4", "77", """ "valueString":"x" """, "urn:rows"), Row("miller-5", "220", """ "valueString":"x" """, "urn:rows"),
        ];
        var source = new OnePage(rows);
        var sweep = new SweepStep(
            bench.Ledger, source, new FhirArrivalReader(ShippedMaps.StandardCodes), board, new IntakeHealth(), new IntakeOptions(), bench.Clock, lines);

        await sweep.StepAsync(stop);

        Assert.Equal(
            ["AG2120 in reading Observation, 2 of one page: Value missing", $"AG2121 in reading Observation, 1 of one page: {Codes.OwnCodeUnknown.Title}"],
            lines.Told, StringComparer.Ordinal);
        Assert.Equal([("AG2120", 2), ("AG2121", 1)], sweep.Tally.Problems);
        Assert.Equal(2, sweep.Tally.NotMapped);
        Assert.DoesNotContain(lines.Told, line => line.Contains("iller", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("Observation", "Observation")]
    [InlineData("Mrs Miller", "resource")]
    [InlineData("observation", "resource")]
    [InlineData("", "resource")]
    [InlineData(null, "resource")]
    public void ATypeIsToldOnlyWhereItIsOne(string? type, string told) => Assert.Equal(told, ReadingTally.TypeOf(type));

    [Fact]
    public async Task ARowMetAgainIsNotCountedAgain()
    {
        var stop = TestContext.Current.CancellationToken;
        await using var bench = await PipelineBench.StartAsync(Ward.Morning.AddHours(1));
        using var board = new NoticeBoard();
        var source = new OnePage([Row("a", "vacuum-pressure", """ "note":[{"text":"x"}] """), Row("b", "77", """ "valueString":"x" """, "urn:rows")]);
        var tallies = new List<ReadingTally>();
        foreach (var _ in Enumerable.Range(0, 2))
        {
            var sweep = new SweepStep(bench.Ledger, source, new FhirArrivalReader(ShippedMaps.StandardCodes), board, new IntakeHealth(), new IntakeOptions(), bench.Clock, new Lines());
            await sweep.StepAsync(stop);
            tallies.Add(sweep.Tally);
        }

        Assert.Equal([("AG2120", 1)], tallies[0].Problems);
        Assert.Equal(1, tallies[0].NotMapped);
        Assert.Empty(tallies[1].Problems);
        Assert.Equal(0, tallies[1].NotMapped);
    }

    private static string Row(string id, string code, string value, string system = CodeSystems.AirwayCare) =>
        $$$"""{"resourceType":"Observation","id":"{{{id}}}","status":"final","code":{"coding":[{"system":"{{{system}}}","code":"{{{code}}}"}]},"subject":{"reference":"Patient/p"},"effectiveDateTime":"2026-03-01T09:00:00Z",{{{value}}}}""";

    private sealed class Lines : ILogger<SweepStep>
    {
        public List<string> Told { get; } = [];

        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
            Told.Add(formatter(state, exception));
    }

    private sealed class OnePage(string[] rows) : IArrivalSource
    {
        public IReadOnlyList<string> Types => ["all"];

        public IReadOnlyList<string> Deletions => [];

        public bool IsIndispensable(string type) => false;

        public ValueTask<SourcePage> PageAsync(string type, DateTimeOffset? since, string? next, CancellationToken stop) => ValueTask.FromResult(new SourcePage(
            [.. rows.Select((row, i) => new Arrival(ArrivalKind.Resource, PipelineBench.Server, "Observation", $"o{i}", "1", Charted.Morning, KnownBy.ServersStamp, Encoding.UTF8.GetBytes(row)))],
            null, Charted.Morning, null, null));
    }
}
