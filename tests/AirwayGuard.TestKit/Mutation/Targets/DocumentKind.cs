using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.TestKit.Mutation.Mutators;

namespace AirwayGuard.TestKit.Mutation.Targets;

/// <summary>Bundles, single resources and lines of them through the streaming reader of files, and each resource found through the arrival reader.</summary>
internal sealed class DocumentKind(JsonInput[] inputs) : MutationKind
{
    private static readonly string[] Labels = ["input.json", "input.ndjson", "-"];
    private static readonly int[] Pieces = [1, 7, 100, 4_096, int.MaxValue];

    private readonly FhirArrivalReader _reader = new(ShippedMaps.WithDemoRows);
    private readonly Reading _reading = new();

    public override string Name => "document";

    public override long BaseWork => 768 * 1024;

    public override long WorkPerByte => 300;

    public override byte[] Draw(Dice dice) => JsonMutator.Mutate(inputs, dice);

    public override string? Try(byte[] input, Dice dice)
    {
        using var stream = new CountingStream(input, dice.OneOf(Pieces));
        var (entities, told) = (new EntityTable(), false);
        var label = dice.OneOf(Labels);
        foreach (var item in Ended(() => ItemsAsync(stream, label)))
        {
            if (item.Problem is { } problem)
            {
                told = true;
                if (ReadingFaults.Quoted([problem]) is { } quoted)
                {
                    return quoted;
                }
            }

            if (item.Arrival is { } arrival)
            {
                _reader.Read(arrival, entities, _reading);
                told |= _reading.Problems.Count > 0;
                if (arrival.Kind == ArrivalKind.Resource && ReadingFaults.Of(arrival.Body.Span, _reading) is { } fault)
                {
                    return fault;
                }
            }
        }

        return told || ReadingFaults.IsWellFormed(input) || AreLines(input) ? null : "It is no JSON and was passed over in silence.";
    }

    internal static async Task<List<DocumentItem>> ItemsAsync(Stream stream, string label)
    {
        var items = new List<DocumentItem>();
        await foreach (var item in FhirDocuments.ReadAsync(stream, label))
        {
            items.Add(item);
        }

        return items;
    }

    private static bool AreLines(ReadOnlySpan<byte> input)
    {
        input = input.StartsWith("\uFEFF"u8) ? input[3..] : input;
        foreach (var line in input.Split((byte)'\n'))
        {
            var text = input[line].Trim(" \t\r"u8);
            if (text.Length > 0 && !ReadingFaults.IsWellFormed(text))
            {
                return false;
            }
        }

        return true;
    }
}
