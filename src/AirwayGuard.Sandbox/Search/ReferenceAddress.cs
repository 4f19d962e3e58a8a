using AirwayGuard.Sandbox.Documents;

namespace AirwayGuard.Sandbox.Search;

/// <summary>A literal reference taken apart (R4 references.html#literal): base, type and id, the version dropped.</summary>
internal readonly record struct ReferenceAddress(string Base, string Type, string Id)
{
    public static ReferenceAddress Parse(string reference)
    {
        var path = reference;
        var history = path.IndexOf("/_history/", StringComparison.Ordinal);
        if (history > 0)
        {
            path = path[..history];
        }

        var idAt = path.LastIndexOf('/');
        var typeAt = idAt > 0 ? path.LastIndexOf('/', idAt - 1) : -1;
        if (idAt > 0)
        {
            var (type, id) = (path[(typeAt + 1)..idAt], path[(idAt + 1)..]);
            if (ResourceTypes.IsKnown(type) && ResourceTypes.IsId(id))
            {
                return new ReferenceAddress(typeAt < 0 ? "" : path[..typeAt], type, id);
            }
        }

        return new ReferenceAddress("", "", reference);
    }
}
