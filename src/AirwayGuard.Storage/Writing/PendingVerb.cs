namespace AirwayGuard.Storage.Writing;

/// <summary>A verb that waits for the writer, and the caller that waits for it.</summary>
internal abstract class PendingVerb
{
    /// <summary>Runs inside the commit; what it throws undoes this verb only.</summary>
    public abstract void Run(WriteSession session);

    /// <summary>The commit is on disk.</summary>
    public abstract void Complete();

    /// <summary>The commit failed as a whole.</summary>
    public abstract void Fail(Exception trouble);
}

/// <inheritdoc />
internal sealed class PendingVerb<T>(Func<WriteSession, T> verb, TaskCompletionSource<T> done, CancellationToken stop) : PendingVerb
{
    private T? _result;
    private Exception? _trouble;

    public override void Run(WriteSession session)
    {
        if (stop.IsCancellationRequested)
        {
            _trouble = new OperationCanceledException(stop);
            return;
        }

        session.Save();
        try
        {
            _result = verb(session);
            session.Release();
        }
        catch (Exception trouble)
        {
            if (!session.TryUndo())
            {
                throw;
            }

            _trouble = trouble;
        }
    }

    public override void Complete()
    {
        if (_trouble is OperationCanceledException)
        {
            done.TrySetCanceled(stop);
        }
        else if (_trouble is { } trouble)
        {
            done.TrySetException(trouble);
        }
        else
        {
            done.TrySetResult(_result!);
        }
    }

    public override void Fail(Exception trouble) => done.TrySetException(_trouble ?? trouble);
}
