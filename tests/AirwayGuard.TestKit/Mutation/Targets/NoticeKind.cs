using AirwayGuard.Fhir.Reading;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.TestKit.Mutation.Mutators;
using AirwayGuard.Worker.Intake;

namespace AirwayGuard.TestKit.Mutation.Targets;

/// <summary>Notices at their door, which reads the channel, the token and the length; the body, which it never reads, through the check that every resource meets first.</summary>
internal sealed class NoticeKind : MutationKind, IDisposable
{
    private const string Channel = "rows";

    private readonly JsonInput[] _inputs;
    private readonly NoticeBoard _board = new();
    private readonly SetClock _clock = new(DateTimeOffset.UnixEpoch);
    private readonly NotifyDoor _door;

    public NoticeKind(JsonInput[] inputs)
    {
        _inputs = inputs;
        _door = new NotifyDoor(_board, new IntakeHealth(), _clock);
        _door.Open(Channel, "Observation?", "token");
    }

    public override string Name => "notice";

    public override long BaseWork => 256 * 1024;

    public override long WorkPerByte => 12;

    public void Dispose() => _board.Dispose();

    public override byte[] Draw(Dice dice) => JsonMutator.Mutate(_inputs, dice);

    public override string? Try(byte[] input, Dice dice)
    {
        _clock.Now = _clock.Now.AddMilliseconds(dice.Next(40));
        var channel = dice.Once(4) ? HeaderMutator.Value(dice) : Channel;
        var token = dice.Next(4) switch { 0 => HeaderMutator.Value(dice), 1 => null, _ => "Bearer token" };
        long? length = dice.Next(6) switch { 0 => null, 1 => NotifyDoor.LargestBody + 1, 2 => -1, 3 => long.MaxValue, _ => input.Length };
        var answer = _door.Answer(channel, token, length);
        var isKnown = channel == Channel && token == "Bearer token";
        if (isKnown == (answer == 401) || answer is not (401 or 413 or 202 or 429))
        {
            return FormattableString.Invariant($"The door answered {answer}.");
        }

        var trouble = JsonCheck.Trouble(JsonCheck.WithoutMark(input).Span, out var type);
        return trouble is null && (type is null || !ReadingFaults.IsJson(input)) ? "The body counts as a resource and is none." : null;
    }
}
