using Hl7.Fhir.Model;

namespace AirwayGuard.Sandbox.Search;

/// <summary>Sort terms as SQL (R4 search.html#sort).</summary>
internal static class SortSql
{
    public static Condition? For(string type, string name, string direction)
    {
        // Within one millisecond the order is that in which the server took the versions.
        if (name == "_lastUpdated")
        {
            return Condition.Of($"r.updated {direction}, r.seq {direction}");
        }

        if (name == "_id")
        {
            return Condition.Of($"r.id {direction}");
        }

        if (ParameterCatalog.Find(type, name) is not { } parameter)
        {
            return null;
        }

        // With several values the lowest counts when ascending, the highest when descending.
        var pick = direction == "ASC" ? "min" : "max";
        var source = parameter.Kind switch
        {
            SearchParamType.Date => pick == "min" ? "min(low) FROM index_date" : "max(high) FROM index_date",
            SearchParamType.String or SearchParamType.Uri => $"{pick}(folded) FROM index_string",
            SearchParamType.Token => $"{pick}(code) FROM index_token",
            SearchParamType.Number or SearchParamType.Quantity => $"{pick}(value) FROM index_number",
            _ => $"{pick}(target) FROM index_reference",
        };
        return Condition.Of($"(SELECT {source} WHERE key=? AND rid=r.rid) {direction} NULLS LAST", parameter.Key);
    }
}
