using System.Text;
using AirwayGuard.Sandbox;
using AirwayGuard.Sandbox.Search;
using AirwayGuard.TestKit.Mutation.Mutators;

namespace AirwayGuard.TestKit.Mutation.Targets;

/// <summary>Query strings through the demo server's reader of search parameters.</summary>
internal sealed class QueryKind : MutationKind
{
    private static readonly string[] Types = ["Observation", "Observation", "Patient", "Flag", "DetectedIssue", "Provenance", "Task", "Encounter", "Basic", "Composition"];
    private static readonly DateTimeOffset Now = new(2026, 3, 1, 10, 0, 0, TimeSpan.Zero);

    public override string Name => "query";

    public override string Ending => "txt";

    public override long BaseWork => 8 * 1024 * 1024;

    public override long WorkPerByte => 2_000;

    public override byte[] Draw(Dice dice) => QueryMutator.Mutate(dice);

    public override string? Try(byte[] input, Dice dice)
    {
        var (query, type, isStrict) = (Encoding.UTF8.GetString(input), dice.OneOf(Types), dice.Once(2));
        try
        {
            SearchReader.Read(type, SearchText.Pairs(query), isStrict, "http://sandbox.test/fhir", Now);
            return null;
        }
        catch (SandboxRefusalException refused)
        {
            return refused.Status is >= 400 and < 500 ? null : "It is refused as a fault of the server.";
        }
    }
}
