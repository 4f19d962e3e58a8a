using System.Collections.Concurrent;

namespace AirwayGuard.Storage.Writing;

/// <summary>
/// The one writer: a thread of its own that runs the verbs waiting for it in one commit and then tells each caller. A verb that
/// fails is undone alone; the others of its commit stand.
/// </summary>
internal sealed class GroupWriter : IAsyncDisposable
{
    private readonly BlockingCollection<PendingVerb> _queue = [];
    private readonly Thread _thread;
    private readonly WriteSession _session;
    private readonly int _most;

    public GroupWriter(WriteSession session, int mostVerbsPerCommit)
    {
        _session = session;
        _most = mostVerbsPerCommit;
        _thread = new Thread(Loop) { IsBackground = true, Name = "ledger writer" };
        _thread.Start();
    }

    public Task<T> RunAsync<T>(Func<WriteSession, T> verb, CancellationToken stop)
    {
        var done = new TaskCompletionSource<T>(TaskCreationOptions.RunContinuationsAsynchronously);
        _queue.Add(new PendingVerb<T>(verb, done, stop), CancellationToken.None);
        return done.Task;
    }

    /// <summary>Finishes what was asked for, then ends the thread.</summary>
    public async ValueTask DisposeAsync()
    {
        _queue.CompleteAdding();
        await Task.Run(_thread.Join);
        _queue.Dispose();
    }

    private void Loop()
    {
        var group = new List<PendingVerb>();
        foreach (var first in _queue.GetConsumingEnumerable())
        {
            group.Add(first);
            CommitGroup(group);
            group.Clear();
        }
    }

    private void CommitGroup(List<PendingVerb> group)
    {
        try
        {
            _session.Begin();
            group[0].Run(_session);
            while (group.Count < _most && _queue.TryTake(out var next))
            {
                group.Add(next);
                next.Run(_session);
            }

            _session.Commit();
        }
        catch (Exception trouble)
        {
            _session.Abandon();
            group.ForEach(verb => verb.Fail(trouble));
            return;
        }

        group.ForEach(verb => verb.Complete());
    }
}
