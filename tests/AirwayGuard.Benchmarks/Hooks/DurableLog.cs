using System.Collections.Concurrent;
using Microsoft.Win32.SafeHandles;

namespace AirwayGuard.Benchmarks.Hooks;

/// <summary>The least that keeps an answer: its bytes at the end of one file, on disk before it goes out; whoever waits meanwhile shares the next write, as at the ledger.</summary>
internal sealed class DurableLog : IDisposable
{
    private readonly BlockingCollection<(byte[] Bytes, TaskCompletionSource Done)> _queue = [];
    private readonly SafeFileHandle _file;
    private readonly Thread _writer;
    private long _end;

    public DurableLog(string folder)
    {
        _file = File.OpenHandle(Path.Combine(folder, "answers"), FileMode.Create, FileAccess.Write);
        _writer = new Thread(Write) { IsBackground = true, Name = "answers" };
        _writer.Start();
    }

    public Task KeepAsync(byte[] bytes)
    {
        var done = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        _queue.Add((bytes, done));
        return done.Task;
    }

    public void Dispose()
    {
        _queue.CompleteAdding();
        _writer.Join();
        _queue.Dispose();
        _file.Dispose();
    }

    private void Write()
    {
        var group = new List<TaskCompletionSource>();
        foreach (var first in _queue.GetConsumingEnumerable())
        {
            Append(first, group);
            while (_queue.TryTake(out var next))
            {
                Append(next, group);
            }

            RandomAccess.FlushToDisk(_file);
            group.ForEach(static done => done.SetResult());
            group.Clear();
        }
    }

    private void Append((byte[] Bytes, TaskCompletionSource Done) one, List<TaskCompletionSource> group)
    {
        RandomAccess.Write(_file, one.Bytes, _end);
        _end += one.Bytes.Length;
        group.Add(one.Done);
    }
}
