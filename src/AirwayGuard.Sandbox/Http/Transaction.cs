using AirwayGuard.Sandbox.Documents;

namespace AirwayGuard.Sandbox.Http;

/// <summary>
/// A transaction, all or nothing, in the order of R4 http.html#trules: DELETE, POST, PUT, GET. Identities are settled
/// before anything is written, so that references between entries can point both ways.
/// </summary>
internal sealed class Transaction(SandboxRepository repository, Router router, SandboxRequest request)
{
    private readonly Dictionary<string, string> identities = new(StringComparer.Ordinal);
    private readonly Dictionary<string, BundleEntry> byCriteria = new(StringComparer.Ordinal);
    private readonly HashSet<string> written = new(StringComparer.Ordinal);

    /// <summary>Answers in the order of the entries; the first refusal undoes everything and names its entry.</summary>
    public List<SandboxResponse> Run(IReadOnlyList<BundleEntry> entries)
    {
        Each(entries, "POST", Read);
        Each(entries, "PUT", Read);
        foreach (var entry in entries.Where(entry => entry.Method is not ("POST" or "PUT" or "DELETE" or "GET" or "HEAD")))
        {
            throw entry.Place(new SandboxRefusalException(SandboxFault.BundleUnusable, 400, "not-supported", "The method is not served in a transaction."));
        }

        return repository.Transact(() =>
        {
            Each(entries, "DELETE", Delete);
            Each(entries, "POST", IdentifyCreate);
            Each(entries, "PUT", IdentifyUpdate);
            var references = new ReferenceResolver(repository, identities, byCriteria);
            Each(entries, "POST", entry => Resolve(references, entry));
            Each(entries, "PUT", entry => Resolve(references, entry));
            Each(entries, "POST", Create);
            Each(entries, "PUT", Update);
            Each(entries, "GET", Retrieve);
            Each(entries, "HEAD", Retrieve);
            return entries.Select(entry => entry.Response!).ToList();
        });
    }

    private static void Each(IReadOnlyList<BundleEntry> entries, string method, Action<BundleEntry> action)
    {
        foreach (var entry in entries.Where(entry => entry.Method == method))
        {
            try
            {
                action(entry);
            }
            catch (SandboxRefusalException refusal)
            {
                throw entry.Place(refusal);
            }
        }
    }

    private void Read(BundleEntry entry)
    {
        if (entry.Resource is null)
        {
            throw new SandboxRefusalException(SandboxFault.BundleUnusable, 400, "required", "An entry that writes has no resource.");
        }

        entry.Document = ResourceDocument.Read(entry.Resource, repository.Options);
        if (entry.Document.Type != entry.Type || entry.Path.Split('/').Length > (entry.Method == "PUT" ? 2 : 1))
        {
            throw new SandboxRefusalException(SandboxFault.BundleUnusable, 400, "invalid", "The request's url does not fit the entry's resource.");
        }
    }

    private void Delete(BundleEntry entry)
    {
        entry.Response = router.Answer(entry.AsRequest(request));
        Claim(entry.Response.Version is { } version ? $"{version.Type}/{version.Id}" : entry.Path);
    }

    private void IdentifyCreate(BundleEntry entry)
    {
        if (entry.IfNoneExist is { } criteria)
        {
            var key = $"{entry.Type}?{criteria.TrimStart('?')}";
            if (!byCriteria.TryAdd(key, entry))
            {
                // The second of two creates that exclude each other means the resource of the first.
                entry.Twin = byCriteria[key];
                Identify(entry, entry.Twin.Id!);
                return;
            }

            entry.Found = repository.MatchOne(entry.Type, criteria);
        }

        Identify(entry, entry.Found?.Id ?? repository.Store.NextId(entry.Type));
        if (entry.Found is null)
        {
            Claim($"{entry.Type}/{entry.Id}");
        }
    }

    private void IdentifyUpdate(BundleEntry entry)
    {
        if (entry.Query.Length > 0)
        {
            var id = repository.IdentityOf(entry.Query, entry.Document!);
            entry.Document!.Root["id"] = id;
            byCriteria.TryAdd($"{entry.Type}?{entry.Query}", entry);
            Identify(entry, id);
        }
        else
        {
            var parts = entry.Path.Split('/');
            Identify(entry, parts.Length == 2 ? parts[1] : throw new SandboxRefusalException(SandboxFault.BundleUnusable, 400, "value", "A PUT has neither id nor criteria."));
        }

        Claim($"{entry.Type}/{entry.Id}");
    }

    private void Identify(BundleEntry entry, string id)
    {
        entry.Id = id;
        if (entry.FullUrl is { Length: > 0 } address && !identities.TryAdd(address, $"{entry.Type}/{id}"))
        {
            throw new SandboxRefusalException(SandboxFault.BundleUnusable, 400, "duplicate", "Two entries have the same fullUrl.");
        }
    }

    // R4 http.html#trules: a transaction fails when identities overlap.
    private void Claim(string identity)
    {
        if (!written.Add(identity))
        {
            throw new SandboxRefusalException(SandboxFault.BundleUnusable, 400, "duplicate", "Two entries write the same resource.");
        }
    }

    private static void Resolve(ReferenceResolver references, BundleEntry entry)
    {
        if (entry.Found is null && entry.Twin is null)
        {
            references.Resolve(entry.Document!.Root);
        }
    }

    private void Create(BundleEntry entry)
    {
        var known = entry.Found ?? entry.Twin?.Response!.Version;
        var result = known is null
            ? repository.Create(entry.Document!, ifNoneExist: null, entry.Id)
            : new WriteResult(known, Created: false, Written: false);
        entry.Response = Router.Written(request, result);
    }

    private void Update(BundleEntry entry) =>
        entry.Response = Router.Written(request, repository.Update(entry.Type, entry.Id!, entry.Document!, entry.Preconditions));

    private void Retrieve(BundleEntry entry) => entry.Response = router.Answer(entry.AsRequest(request));
}
