using AirwayGuard.Core.Orders;
using AirwayGuard.TestKit.Mutation.Targets;

namespace AirwayGuard.TestKit.Mutation;

/// <summary>
/// Changes real inputs and puts each through what reads it: nothing may be thrown, the work must keep to a multiple of the length,
/// what cannot be read must be told, and no problem may quote a person's name or words. A seed names one input. Not safe for concurrent use.
/// </summary>
public sealed class MutationRun
{
    // A million take about a minute of one core: the kinds that cost microseconds make up the number, and of each of the others there are a thousand at least.
    private readonly (MutationKind Kind, int Share)[] _kinds;
    private readonly int _shares;

    public MutationRun(MutationInputs inputs)
    {
        ArgumentNullException.ThrowIfNull(inputs);
        _kinds =
        [
            (new ResourceKind("row", inputs.Rows), 700), (new ResourceKind("resource", inputs.Resources), 90), (new DocumentKind(inputs.Documents), 30), (new JudgedKind(inputs.Stays), 10),
            (new NoticeKind(inputs.Notices), 2_600), (new RuleSetKind(), 20), (new QueryKind(), 2_900), (new ConditionKind(), 3_600), (new AnswerKind(inputs.Answers), 40), (new WrittenKind(inputs.Written), 10),
            (new HookKind(inputs.Hooks), 400), (new FeedbackKind(inputs.Feedback), 400),
        ];
        _shares = _kinds.Sum(one => one.Share);
        // The words of orders are put into their tables once, at their first use: that is no input's work.
        _ = OrderTextReader.Read("suction");
    }

    /// <summary>Names of the kinds, in the order of results.</summary>
    public IReadOnlyList<string> Kinds => [.. _kinds.Select(one => one.Kind.Name)];

    /// <summary>The input of a seed, of the kind that the seed gives.</summary>
    public MutationResult Run(long seed)
    {
        var dice = new Dice((ulong)seed * 0xD1B54A32D192ED03);
        var at = dice.Next(_shares);
        var index = 0;
        while (at >= _kinds[index].Share)
        {
            at -= _kinds[index++].Share;
        }

        return Run(seed, _kinds[index].Kind, dice);
    }

    /// <summary>The input of a seed of one kind.</summary>
    public MutationResult Run(long seed, string kind) =>
        Run(seed, _kinds.Single(one => one.Kind.Name == kind).Kind, new Dice((ulong)seed * 0xD1B54A32D192ED03));

    private static MutationResult Run(long seed, MutationKind kind, Dice dice)
    {
        var input = kind.Draw(dice);
        var allowed = kind.BaseWork + (kind.WorkPerByte * input.Length);
        var before = GC.GetAllocatedBytesForCurrentThread();
        string? fault;
        try
        {
            fault = kind.Try(input, dice);
        }
        catch (Exception crash) when (crash is not OutOfMemoryException)
        {
            fault = "crash: " + crash;
        }

        var work = GC.GetAllocatedBytesForCurrentThread() - before;
        return new MutationResult(seed, kind.Name, kind.Ending, input, work, allowed, fault ?? (work > allowed ? FormattableString.Invariant($"{work} bytes of work, allowed {allowed}") : null));
    }
}
