using System.Globalization;
using System.Threading.Channels;
using AirwayGuard.Sandbox.Documents;
using AirwayGuard.Sandbox.Search;
using AirwayGuard.Sandbox.Storage;
using AirwayGuard.Sandbox.Subscriptions;
using Microsoft.Data.Sqlite;

namespace AirwayGuard.Sandbox;

/// <summary>
/// A FHIR R4 repository in one SQLite file. Interactions run one at a time, each whole or not at all; time comes from the
/// clock handed in and nothing runs by itself. Refusals are <see cref="SandboxRefusalException"/>.
/// </summary>
public sealed class SandboxRepository : IDisposable
{
    private readonly Channel<bool> work = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });
    private readonly Database database;

    /// <summary>Opens the database in the options' folder, made when missing.</summary>
    /// <exception cref="SandboxFolderException">The folder or what lies in it cannot be used.</exception>
    public SandboxRepository(SandboxOptions options, TimeProvider clock)
    {
        if (string.IsNullOrWhiteSpace(options.Folder))
        {
            throw new ArgumentException("The options name no folder.", nameof(options));
        }

        Options = options;
        database = Open(options);
        Store = new ResourceStore(database, clock, options.StampsGoBack);
        Runner = new SearchRunner(database);
        Outbox = new NotificationOutbox(database, Store, Runner);
        database.RolledBack = Outbox.Forget;
        database.Execute("INSERT INTO setting VALUES ('starts', 1) ON CONFLICT (name) DO UPDATE SET value = value + 1");
        Results = new ResultSets(database.Scalar("SELECT value FROM setting WHERE name='starts'"), options.KeptResultSets);
    }

    /// <summary>The options it was opened with.</summary>
    public SandboxOptions Options { get; }

    /// <summary>The server's time: whole milliseconds; never earlier than any version's lastUpdated, unless stamps go back with the clock.</summary>
    public DateTimeOffset Now => Locked(Store.Now);

    internal ResourceStore Store { get; }

    internal SearchRunner Runner { get; }

    internal NotificationOutbox Outbox { get; }

    internal ResultSets Results { get; }

    /// <summary>Stores a new resource under an id of the server's choice (R4 http.html#create).</summary>
    /// <param name="resource">UTF-8 JSON.</param>
    /// <param name="ifNoneExist">Search parameters; one match means nothing is stored, several are refused with 412 (#ccreate).</param>
    public WriteResult Create(ReadOnlyMemory<byte> resource, string? ifNoneExist = null) =>
        Create(ResourceDocument.Read(resource, Options), ifNoneExist, assignedId: null);

    /// <summary>Stores the next version, or the first one under the client's id (R4 http.html#update, #upsert).</summary>
    public WriteResult Update(string type, string id, ReadOnlyMemory<byte> resource, Preconditions? preconditions = null) =>
        Update(type, id, ResourceDocument.Read(resource, Options), preconditions ?? Preconditions.None);

    /// <summary>The current version, which may be a deletion; null when there never was one.</summary>
    public StoredVersion? Read(string type, string id) => Locked(() => Store.Current(type, id));

    /// <summary>One version; null when there is none of that number.</summary>
    public StoredVersion? Read(string type, string id, int version) => Locked(() => Store.Version(type, id, version));

    /// <summary>Deletes. Returns the deletion, or null when nothing was there (R4 http.html#delete).</summary>
    public StoredVersion? Delete(string type, string id, Preconditions? preconditions = null) => Transact(() =>
    {
        var current = Store.Current(type, id);
        (preconditions ?? Preconditions.None).Check(current);
        return current is { IsDeletion: false } ? Append(type, id, document: null, "DELETE") : null;
    });

    /// <summary>All matches of a search, unpaged.</summary>
    /// <param name="type">The resource type.</param>
    /// <param name="parameters">A query string; unknown parameters are refused with 400.</param>
    public IReadOnlyList<StoredVersion> Search(string type, string parameters) =>
        Locked(() => Runner.Matches(Query(type, parameters)).ConvertAll(sequence => Store.At(sequence)!));

    /// <summary>All versions, newest first; nulls widen to all ids and all types.</summary>
    public IReadOnlyList<StoredVersion> History(string? type = null, string? id = null) =>
        Locked(() => Store.History(type, id, sinceTicks: 0).ConvertAll(sequence => Store.At(sequence)!));

    /// <summary>Waits until there may be a notification or a Subscription to attend to.</summary>
    public ValueTask<bool> WaitForWorkAsync(CancellationToken cancellation) => work.Reader.ReadAsync(cancellation);

    /// <inheritdoc/>
    public void Dispose()
    {
        lock (database.Gate)
        {
            database.Dispose();
        }
    }

    internal WriteResult Create(ResourceDocument document, string? ifNoneExist, string? assignedId) => Transact(() =>
    {
        if (ifNoneExist is not null && MatchOne(document.Type, ifNoneExist) is { } found)
        {
            return new WriteResult(found, Created: false, Written: false);
        }

        var id = assignedId ?? Store.NextId(document.Type);
        return new WriteResult(Append(document.Type, id, document, "POST"), Created: true, Written: true);
    });

    internal WriteResult Update(string type, string id, ResourceDocument document, Preconditions preconditions) => Transact(() =>
    {
        if (document.Type != type)
        {
            throw new SandboxRefusalException(SandboxFault.WrongType, 400, "invalid", "The resource is not of the type in the address.", "resourceType");
        }

        if (document.Id != id)
        {
            throw new SandboxRefusalException(SandboxFault.WrongId, 400, "invalid", "The resource's id is not the id in the address.", $"{type}.id");
        }

        if (!ResourceTypes.IsId(id))
        {
            throw new SandboxRefusalException(SandboxFault.WrongId, 400, "value", "The id has characters or a length that R4 does not allow.", $"{type}.id");
        }

        var current = Store.Current(type, id);
        preconditions.Check(current);
        return new WriteResult(Append(type, id, document, "PUT"), Created: current is null or { IsDeletion: true }, Written: true);
    });

    /// <summary>Conditional update (R4 http.html#cond-update).</summary>
    internal WriteResult UpdateMatching(string criteria, ResourceDocument document, Preconditions preconditions) => Transact(() =>
    {
        document.Root["id"] = IdentityOf(criteria, document);
        return Update(document.Type, document.Id!, document, preconditions);
    });

    /// <summary>The id a conditional update writes to: the match's, the client's or a new one.</summary>
    internal string IdentityOf(string criteria, ResourceDocument document)
    {
        var (type, id) = (document.Type, document.Id);
        if (MatchOne(type, criteria) is { } found)
        {
            return id is null || id == found.Id
                ? found.Id
                : throw new SandboxRefusalException(SandboxFault.WrongId, 400, "invalid", "The resource's id is not that of the match.", $"{type}.id");
        }

        return id is not null && Store.Current(type, id) is { IsDeletion: false }
            ? throw new SandboxRefusalException(SandboxFault.WrongId, 409, "conflict", "Nothing matches, yet a resource of the given id exists.", $"{type}.id")
            : id ?? Store.NextId(type);
    }

    /// <summary>The one match of criteria, null for none; several are refused with 412.</summary>
    internal StoredVersion? MatchOne(string type, string criteria)
    {
        var query = Query(type, criteria);
        if (query.Conditions.Count == 0)
        {
            throw new SandboxRefusalException(SandboxFault.CriteriaNotUnique, 412, "not-supported", "The criteria select nothing in particular.");
        }

        var matches = Runner.Matches(query);
        return matches.Count switch
        {
            0 => null,
            1 => Store.At(matches[0]),
            _ => throw new SandboxRefusalException(SandboxFault.CriteriaNotUnique, 412, "multiple-matches", "The criteria match more than one resource."),
        };
    }

    /// <summary>Runs several interactions as one, all or nothing.</summary>
    internal T Transact<T>(Func<T> interaction)
    {
        var result = Locked(() => database.InTransaction(interaction));
        if (Outbox.HasWork)
        {
            work.Writer.TryWrite(item: true);
        }

        return result;
    }

    internal T Locked<T>(Func<T> interaction)
    {
        lock (database.Gate)
        {
            return interaction();
        }
    }

    private static Database Open(SandboxOptions options)
    {
        try
        {
            Directory.CreateDirectory(options.Folder);
            return new Database(Path.Combine(options.Folder, "sandbox.db"), options.WaitsForDisk);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            throw new SandboxFolderException("The server's folder cannot be made.", trouble);
        }
        catch (SqliteException trouble)
        {
            throw new SandboxFolderException(string.Create(CultureInfo.InvariantCulture, $"The server's database cannot be opened (SQLite {trouble.SqliteExtendedErrorCode})."), trouble);
        }
    }

    // Criteria that decide what is written must be understood whole.
    private SearchQuery Query(string type, string criteria) =>
        SearchReader.Read(type, SearchText.Pairs(criteria), strict: true, baseAddress: "", Store.Now());

    private StoredVersion Append(string type, string id, ResourceDocument? document, string method)
    {
        if (document is { Type: "Subscription" })
        {
            SubscriptionRules.Check(document.Root, Store.Now());
        }

        var version = Store.Append(type, id, document, method);
        Outbox.Note(version);
        return version;
    }
}
