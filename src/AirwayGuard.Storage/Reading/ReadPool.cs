using System.Collections.Concurrent;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Reading;

/// <summary>Connections for reading; they never wait for the writer.</summary>
internal sealed class ReadPool(string file) : IDisposable
{
    private readonly ConcurrentBag<Database> _idle = [];

    public Lease Rent() => new(this, _idle.TryTake(out var database) ? database : Database.OpenReader(file));

    public void Dispose()
    {
        while (_idle.TryTake(out var database))
        {
            database.Dispose();
        }
    }

    /// <summary>A connection on loan.</summary>
    public readonly struct Lease(ReadPool pool, Database database) : IDisposable
    {
        public Database Database => database;

        public void Dispose() => pool._idle.Add(database);
    }
}
