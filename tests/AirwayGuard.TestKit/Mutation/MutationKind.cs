using System.Runtime.ExceptionServices;

namespace AirwayGuard.TestKit.Mutation;

/// <summary>One kind of input: how one is made, and what it is put through. Not safe for concurrent use.</summary>
internal abstract class MutationKind
{
    /// <summary>Its name in results and files.</summary>
    public abstract string Name { get; }

    /// <summary>Ending of a file that holds one.</summary>
    public virtual string Ending => "json";

    /// <summary>Bytes of work allowed whatever the input's length.</summary>
    public abstract long BaseWork { get; }

    /// <summary>Bytes of work allowed for each byte of the input.</summary>
    public abstract long WorkPerByte { get; }

    public abstract byte[] Draw(Dice dice);

    /// <returns>What was broken, in words; null where all held. What it throws is a crash.</returns>
    public abstract string? Try(byte[] input, Dice dice);

    /// <summary>The result of a task that waits for nothing: work that went on elsewhere would not be counted.</summary>
    protected static T Ended<T>(Func<Task<T>> started)
    {
        var result = default(T);
        var task = TakeAsync();
        if (task.Exception?.InnerException is { } thrown)
        {
            ExceptionDispatchInfo.Throw(thrown);
        }

        return task.IsCompletedSuccessfully ? result! : throw new InvalidOperationException("It did not end at once, so its work is not counted.");

        async Task TakeAsync() => result = await started();
    }
}
