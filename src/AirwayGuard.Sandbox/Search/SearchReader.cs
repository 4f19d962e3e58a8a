using System.Globalization;
using AirwayGuard.Sandbox.Documents;

namespace AirwayGuard.Sandbox.Search;

/// <summary>Reads search parameters (R4 search.html). Unknown ones are ignored, or refused when the client asks for it.</summary>
internal static class SearchReader
{
    private const int MostCriteria = 64;

    /// <param name="type">The resource type searched.</param>
    /// <param name="pairs">Names and values, decoded.</param>
    /// <param name="strict">Whether an unknown parameter is refused with 400 (<c>Prefer: handling=strict</c>).</param>
    /// <param name="baseAddress">The server's own address, so that absolute references to it are known as local.</param>
    /// <param name="now">The server's time, for approximate dates.</param>
    public static SearchQuery Read(string type, IEnumerable<KeyValuePair<string, string>> pairs, bool strict, string baseAddress, DateTimeOffset now)
    {
        var query = new SearchQuery { Type = type };
        var terms = new TermReader(baseAddress, now);
        foreach (var (name, value) in pairs)
        {
            // R4 search.html#errors: a parameter without a value is left aside.
            if (value.Length == 0)
            {
                continue;
            }

            if (TryResultParameter(query, name, value) || Criterion(query, terms, name, value))
            {
                query.Used.Add(new(name, value));
            }
            else if (name is not ("_format" or "_pretty"))
            {
                query.Ignored.Add(name);
            }
        }

        return strict && query.Ignored.Count > 0
            ? throw new SandboxRefusalException(SandboxFault.ParameterUnknown, 400, "not-supported", "A search parameter is not known for this type.")
            : query;
    }

    private static bool Criterion(SearchQuery query, TermReader terms, string name, string value)
    {
        if (terms.Read(query.Type, name, value) is not { } condition)
        {
            return false;
        }

        if (query.Conditions.Count == MostCriteria)
        {
            throw new SandboxRefusalException(SandboxFault.SearchTooCostly, 400, "too-costly", "A search has more than 64 criteria.");
        }

        query.Conditions.Add(condition);
        return true;
    }

    private static bool TryResultParameter(SearchQuery query, string name, string value)
    {
        switch (name)
        {
            case "_count":
                query.Count = int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var count)
                    ? count
                    : throw new SandboxRefusalException(SandboxFault.ParameterUnreadable, 400, "value", "_count is not a whole number of 0 or more.");
                // R4 search.html#count: 0 is the same as _summary=count.
                query.CountOnly |= count == 0;
                return true;
            case "_summary" when value is "count":
                query.CountOnly = true;
                return true;
            case "_summary":
                return value is "false";
            case "_total":
                return value is "none" or "estimate" or "accurate";
            case "_sort":
                return Sort(query, value);
            case "_include":
            case "_revinclude":
                return Include(query, value, name == "_revinclude");
            default:
                return false;
        }
    }

    private static bool Sort(SearchQuery query, string value)
    {
        var order = new List<Condition>();
        foreach (var term in value.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            var (name, direction) = term.StartsWith('-') ? (term[1..], "DESC") : (term, "ASC");
            if (SortSql.For(query.Type, name, direction) is not { } sql)
            {
                return false;
            }

            order.Add(sql);
        }

        query.Order.AddRange(order);
        return true;
    }

    // Type:parameter[:target], R4 search.html#include
    private static bool Include(SearchQuery query, string value, bool reverse)
    {
        var parts = value.Split(':');
        if (parts.Length is < 2 or > 3 || !ResourceTypes.IsKnown(parts[0]) || (!reverse && parts[0] != query.Type)
            || ParameterCatalog.Find(parts[0], parts[1]) is not { Kind: Hl7.Fhir.Model.SearchParamType.Reference } parameter)
        {
            return false;
        }

        query.Inclusions.Add(new Inclusion(parameter, parts.Length == 3 ? parts[2] : null, reverse));
        return true;
    }
}
