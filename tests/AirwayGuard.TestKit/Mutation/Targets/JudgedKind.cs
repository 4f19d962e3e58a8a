using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Rules;
using AirwayGuard.TestKit.Mutation.Mutators;
using AirwayGuard.Worker.Checking;

namespace AirwayGuard.TestKit.Mutation.Targets;

/// <summary>A few resources of one patient, read, judged by all checks and reported in each form.</summary>
internal sealed class JudgedKind(JsonInput[] inputs) : MutationKind
{
    private static readonly RuleSet[] Sets = [.. ShippedRuleSets.Names.Select(name => ShippedRuleSets.Load(name).RuleSet!).Select(set => set with { Rules = [.. set.Rules.Select(rule => rule with { Mode = Mode.Live })] })];

    private readonly FhirArrivalReader _reader = new(ShippedMaps.WithDemoRows);
    private readonly OrderWordsReader _orders = new(ShippedMaps.WithDemoRows);
    private readonly ChartedText _texts = new();

    public override string Name => "judged";

    public override string Ending => "ndjson";

    public override long BaseWork => 8 * 1024 * 1024;

    public override long WorkPerByte => 2_000;

    public override byte[] Draw(Dice dice) => JsonMutator.Mutate(inputs, dice);

    public override string? Try(byte[] input, Dice dice)
    {
        using var stream = new MemoryStream(input, writable: false);
        CheckInput[] read = [.. Ended(() => DocumentKind.ItemsAsync(stream, "input.ndjson")).Where(item => item.Arrival is not null).Select(item => new CheckInput(item.Arrival!, item.Where))];
        DateTimeOffset? asOf = dice.Next(4) switch { 0 => DateTimeOffset.MinValue, 1 => DateTimeOffset.MaxValue, 2 => new DateTimeOffset(2026, 3, 10, 8, 0, 0, TimeSpan.Zero), _ => null };
        var run = new CheckRun(dice.OneOf(Sets), _reader, _orders, _texts, new MemoryCheckChart());
        var settings = new CheckSettings(asOf, dice.Once(2) ? UnknownAge.StrictestBand : UnknownAge.CannotTell);
        var report = Ended(async () => await run.RunAsync(read, [], false, settings, CancellationToken.None));
        using var json = new MemoryStream();
        CheckReportJson.Write(report, json);
        using var text = new StringWriter();
        CheckReportText.Write(report, text);
        CheckReportFhir.Write(report, "1.0.0");
        return ReadingFaults.Quoted(report.Problems);
    }
}
