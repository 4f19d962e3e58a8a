using System.Globalization;
using AirwayGuard.Sandbox.Documents;
using AirwayGuard.Sandbox.Search;

namespace AirwayGuard.Sandbox.Http;

/// <summary>Searches and histories, page by page.</summary>
internal sealed class Pages(SandboxRepository repository)
{
    public SandboxResponse Search(SandboxRequest request, string type, string form) => repository.Locked(() =>
    {
        List<KeyValuePair<string, string>> pairs = [.. SearchText.Pairs(request.Query), .. SearchText.Pairs(form)];
        if (Continued(request, pairs) is { } page)
        {
            return page;
        }

        var query = SearchReader.Read(type, pairs, Preference.IsStrict(request), request.BaseAddress, repository.Store.Now());
        var set = new ResultSet("searchset", type, SearchText.Query(query.Used), repository.Runner.Matches(query), PageSize(query.Count), query);
        return query.CountOnly ? Render(request, set, offset: 0, name: null, count: 0) : FirstPage(request, set);
    });

    /// <summary>R4 http.html#history: newest first, <c>_since</c> and <c>_count</c>.</summary>
    public SandboxResponse History(SandboxRequest request, string? type, string? id) => repository.Locked(() =>
    {
        var pairs = SearchText.Pairs(request.Query);
        if (Continued(request, pairs) is { } page)
        {
            return page;
        }

        if (type is not null && id is not null && repository.Store.Current(type, id) is null)
        {
            throw new SandboxRefusalException(SandboxFault.NotThere, 404, "not-found", "There is no such resource.");
        }

        long since = 0;
        int? count = null;
        var used = new List<KeyValuePair<string, string>>();
        foreach (var pair in pairs)
        {
            switch (pair.Key)
            {
                case "_since":
                    since = DateSpan.TryParse(pair.Value, out var span) ? span.Low : throw new SandboxRefusalException(SandboxFault.ParameterUnreadable, 400, "value", "_since is not an instant.");
                    used.Add(pair);
                    break;
                case "_count":
                    count = int.TryParse(pair.Value, NumberStyles.None, CultureInfo.InvariantCulture, out var n)
                        ? n
                        : throw new SandboxRefusalException(SandboxFault.ParameterUnreadable, 400, "value", "_count is not a whole number of 0 or more.");
                    used.Add(pair);
                    break;
                case not "_format" and not "_pretty" when Preference.IsStrict(request):
                    throw new SandboxRefusalException(SandboxFault.ParameterUnknown, 400, "not-supported", "A parameter is not known for a history.");
            }
        }

        var path = string.Join('/', new[] { type, id, "_history" }.OfType<string>());
        var set = new ResultSet("history", path, SearchText.Query(used), repository.Store.History(type, id, since), PageSize(count), Query: null);
        return FirstPage(request, set);
    });

    private int PageSize(int? count) => Math.Clamp(count ?? repository.Options.DefaultPageSize, 1, repository.Options.MaxPageSize);

    private SandboxResponse FirstPage(SandboxRequest request, ResultSet set)
    {
        var name = set.Sequences.Count > set.PageSize ? repository.Results.Keep(set) : null;
        return Render(request, set, offset: 0, name, set.PageSize);
    }

    private SandboxResponse? Continued(SandboxRequest request, List<KeyValuePair<string, string>> pairs)
    {
        if (pairs.Find(pair => pair.Key == "_page").Value is not { } name)
        {
            return null;
        }

        var set = repository.Results.Find(name);
        return int.TryParse(pairs.Find(pair => pair.Key == "_offset").Value, NumberStyles.None, CultureInfo.InvariantCulture, out var offset)
            ? Render(request, set, offset, name, set.PageSize)
            : throw new SandboxRefusalException(SandboxFault.ParameterUnreadable, 400, "value", "_offset is not a whole number of 0 or more.");
    }

    private SandboxResponse Render(SandboxRequest request, ResultSet set, int offset, string? name, int count)
    {
        var page = set.Sequences.Skip(offset).Take(count).ToList();
        var first = $"{request.BaseAddress}/{set.Path}{(set.SelfQuery.Length == 0 ? "" : "?")}{set.SelfQuery}";
        var links = new List<KeyValuePair<string, string>> { new("self", offset == 0 || name is null ? first : PageLink(request, set, name, offset)) };
        if (name is not null && offset + page.Count < set.Sequences.Count)
        {
            links.Add(new("next", PageLink(request, set, name, offset + page.Count)));
        }

        using var bundle = new BundleWriter(set.BundleType, repository.Store.Now(), set.Sequences.Count, links);
        foreach (var version in page.Select(sequence => repository.Store.At(sequence)!))
        {
            if (set.Query is null)
            {
                bundle.AddHistory(request.BaseAddress, version);
            }
            else
            {
                bundle.AddMatch(request.BaseAddress, version, "match");
            }
        }

        if (set.Query is { Inclusions.Count: > 0 })
        {
            foreach (var sequence in repository.Runner.Included(set.Query, page))
            {
                bundle.AddMatch(request.BaseAddress, repository.Store.At(sequence)!, "include");
            }
        }

        return SandboxResponse.Json(200, bundle.Finish());
    }

    private static string PageLink(SandboxRequest request, ResultSet set, string name, int offset) =>
        string.Create(CultureInfo.InvariantCulture, $"{request.BaseAddress}/{set.Path}?_page={name}&_offset={offset}");
}
