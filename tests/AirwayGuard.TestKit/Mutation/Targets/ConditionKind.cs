using System.Text;
using AirwayGuard.Sandbox;
using AirwayGuard.TestKit.Mutation.Mutators;

namespace AirwayGuard.TestKit.Mutation.Targets;

/// <summary>Conditional headers before a write and a read at the demo server.</summary>
internal sealed class ConditionKind : MutationKind
{
    private static readonly StoredVersion Current = new()
    {
        Type = "Flag", Id = "f1", VersionId = 1, LastUpdated = new DateTimeOffset(2026, 3, 1, 10, 0, 0, TimeSpan.Zero), Method = "PUT", Body = default,
    };

    public override string Name => "condition";

    public override string Ending => "txt";

    public override long BaseWork => 64 * 1024;

    public override long WorkPerByte => 300;

    public override byte[] Draw(Dice dice) => Encoding.UTF8.GetBytes(HeaderMutator.Value(dice));

    public override string? Try(byte[] input, Dice dice)
    {
        var text = Encoding.UTF8.GetString(input);
        var conditions = dice.Next(4) switch
        {
            0 => new Preconditions(IfMatch: text),
            1 => new Preconditions(IfNoneMatch: text),
            2 => new Preconditions(IfUnmodifiedSince: text),
            _ => new Preconditions(text, text, text),
        };
        try
        {
            if (dice.Once(2))
            {
                conditions.Check(dice.Once(4) ? null : Current);
            }
            else
            {
                conditions.CheckRead(Current);
            }

            return null;
        }
        catch (SandboxRefusalException refused)
        {
            return refused.Status is 400 or 412 ? null : "It is refused otherwise than with 400 or 412.";
        }
    }
}
