using AirwayGuard.Fhir.CdsHooks;
using AirwayGuard.TestKit.Mutation.Mutators;

namespace AirwayGuard.TestKit.Mutation.Targets;

/// <summary>What an EHR tells of cards, through its reader.</summary>
internal sealed class FeedbackKind(JsonInput[] inputs) : MutationKind
{
    public override string Name => "feedback";

    public override long BaseWork => 64 * 1024;

    public override long WorkPerByte => 60;

    public override byte[] Draw(Dice dice) => JsonMutator.Mutate(inputs, dice);

    public override string? Try(byte[] input, Dice dice)
    {
        var reading = FeedbackReader.Read(input);
        if (!ReadingFaults.IsJson(input) && (reading.Faults.IsEmpty || reading.Entries.Length > 0))
        {
            return "It is no JSON and something of it was kept.";
        }

        return reading.Entries.Any(entry => entry.Feedback.Comment?.Length > FeedbackReader.LongestComment) ? "A comment is longer than may be kept."
            : reading.Faults.Select(HookFaults.Quoted).FirstOrDefault(quoted => quoted is not null);
    }
}
