using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.TestKit.Mutation.Mutators;

namespace AirwayGuard.TestKit.Mutation.Targets;

/// <summary>Single resources through the arrival reader, and the words of what was charted.</summary>
internal sealed class ResourceKind(string name, JsonInput[] inputs) : MutationKind
{
    private readonly FhirArrivalReader _reader = new(ShippedMaps.WithDemoRows);
    private readonly ChartedText _texts = new();
    private readonly Reading _reading = new();

    public override string Name => name;

    public override long BaseWork => 512 * 1024;

    public override long WorkPerByte => 200;

    public override byte[] Draw(Dice dice) => JsonMutator.Mutate(inputs, dice);

    public override string? Try(byte[] input, Dice dice)
    {
        _reader.Read(new Arrival(ArrivalKind.Resource, "input.json", null, null, null, DateTimeOffset.UnixEpoch, KnownBy.Import, input), new EntityTable(), _reading);
        if (dice.Once(8))
        {
            _texts.ValueOf(input, dice.Next(4));
        }

        return ReadingFaults.Of(input, _reading);
    }
}
