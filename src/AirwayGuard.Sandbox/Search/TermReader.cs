using AirwayGuard.Sandbox.Documents;
using Hl7.Fhir.Model;

namespace AirwayGuard.Sandbox.Search;

/// <summary>Turns one criterion into SQL over the index tables; null when the parameter is not known.</summary>
internal sealed class TermReader(string baseAddress, DateTimeOffset now)
{
    private const int DeepestChain = 4;
    private const int MostValues = 400;

    /// <summary>Names looked up and values compared in one search: a chain over references to any type multiplies them.</summary>
    private const int MostSteps = 2_000;

    private int steps;

    public Condition? Read(string type, string name, string value) => Read(type, name, value, depth: 0);

    private Condition? Read(string type, string name, string value, int depth)
    {
        if (depth > DeepestChain)
        {
            throw new SandboxRefusalException(SandboxFault.SearchTooCostly, 400, "too-costly", "The chain of search parameters is too long.");
        }

        Count(1);

        if (name.StartsWith("_has:", StringComparison.Ordinal))
        {
            return Has(type, name["_has:".Length..], value, depth);
        }

        var dot = name.IndexOf('.', StringComparison.Ordinal);
        if (dot > 0)
        {
            return Chain(type, name[..dot], name[(dot + 1)..], value, depth);
        }

        var colon = name.IndexOf(':', StringComparison.Ordinal);
        var (plain, modifier) = colon < 0 ? (name, "") : (name[..colon], name[(colon + 1)..]);
        var values = SearchText.Split(value, ',');
        if (values.Count > MostValues)
        {
            throw new SandboxRefusalException(SandboxFault.SearchTooCostly, 400, "too-costly", "A search parameter has more than 400 values.");
        }

        Count(values.Count);
        switch (plain)
        {
            case "_id" when modifier.Length == 0:
                return Any(values, v => Condition.Of("r.id=?", SearchText.Unescape(v)));
            case "_lastUpdated" when modifier.Length == 0:
                return Any(values, v => DateTerm.Read(plain, v, now, "r.updated", "r.updated", TimeSpan.TicksPerMillisecond));
        }

        if (ParameterCatalog.Find(type, plain) is not { } parameter)
        {
            return null;
        }

        return modifier == "missing" ? Missing(parameter, value) : Match(parameter, modifier, values);
    }

    private void Count(int more)
    {
        steps += more;
        if (steps > MostSteps)
        {
            throw new SandboxRefusalException(SandboxFault.SearchTooCostly, 400, "too-costly", "A search compares more than it may in its values and chains.");
        }
    }

    private static Condition Any(List<string> values, Func<string, Condition> term)
    {
        var any = Condition.Join(" OR ", [.. values.Where(v => v.Length > 0).Select(term)]);
        return any with { Sql = $"({(any.Sql.Length == 0 ? "0" : any.Sql)})" };
    }

    private Condition Match(SearchParameter parameter, string modifier, List<string> values)
    {
        var (key, terms) = (parameter.Key, (Func<string, Condition>?)null);
        var negate = false;
        switch (parameter.Kind, modifier)
        {
            case (SearchParamType.Token, "" or "not"):
                terms = TokenTerm.Read;
                negate = modifier == "not";
                break;
            case (SearchParamType.Reference, "identifier"):
                (key, terms) = (parameter.IdentifierKey, TokenTerm.Read);
                return In("index_token", key, values, terms, negate: false);
            case (SearchParamType.Reference, _) when modifier.Length == 0 || ResourceTypes.IsKnown(modifier):
                terms = v => ReferenceTerm.Read(v, modifier, baseAddress);
                break;
            case (SearchParamType.Date, ""):
                terms = v => DateTerm.Read(parameter.Name, v, now, "low", "high");
                break;
            case (SearchParamType.String, "" or "exact" or "contains"):
                terms = v => StringTerm(v, modifier);
                break;
            case (SearchParamType.Uri, ""):
                terms = v => Condition.Of("exact=?", SearchText.Unescape(v));
                break;
            case (SearchParamType.Number or SearchParamType.Quantity, ""):
                terms = v => NumberTerm.Read(parameter.Name, v);
                break;
            default:
                // R4 search.html#modifiers: a server shall reject a modifier it does not support.
                throw new SandboxRefusalException(SandboxFault.ParameterUnknown, 400, "not-supported", $"The modifier of {parameter.Name} is not supported.");
        }

        return In(IndexTable(parameter), key, values, terms, negate);
    }

    private static Condition StringTerm(string value, string modifier)
    {
        var text = SearchText.Unescape(value);
        var folded = Indexer.Fold(text);
        return modifier switch
        {
            "exact" => Condition.Of("exact=?", text),
            "contains" => Condition.Of("instr(folded,?)>0", folded),
            _ => Condition.Of("(folded>=? AND folded<?)", folded, folded + "\U0010FFFF"),
        };
    }

    private static Condition In(string table, string key, List<string> values, Func<string, Condition> terms, bool negate)
    {
        List<Condition> wanted = [.. values.Where(v => v.Length > 0).Select(terms)];
        var word = negate ? "NOT IN" : "IN";
        var all = string.Join(" UNION ALL ", wanted.Select(term => $"SELECT rid FROM {table} WHERE key=? AND {term.Sql}"));
        var own = string.Join(" UNION ALL ", wanted.Select(term => $"SELECT rid FROM {table} INDEXED BY {table}_rid WHERE rid=r.rid AND key=? AND {term.Sql}"));
        return new Condition($"r.rid {word} ({all})", [.. wanted.SelectMany(term => (object[])[key, .. term.Arguments])])
        {
            Narrows = !negate,
            SqlForOne = $"r.rid {word} ({own})",
        };
    }

    private static string IndexTable(SearchParameter parameter) => parameter.Kind switch
    {
        SearchParamType.Token => "index_token",
        SearchParamType.Reference => "index_reference",
        SearchParamType.Date => "index_date",
        SearchParamType.String or SearchParamType.Uri => "index_string",
        _ => "index_number",
    };

    private static Condition Missing(SearchParameter parameter, string value)
    {
        var word = value switch
        {
            "true" => "NOT IN",
            "false" => "IN",
            _ => throw new SandboxRefusalException(SandboxFault.ParameterUnreadable, 400, "value", $"{parameter.Name}:missing is neither true nor false."),
        };
        return Condition.Of($"r.rid {word} (SELECT rid FROM {IndexTable(parameter)} WHERE key=?)", parameter.Key);
    }

    // R4 search.html#chaining: subject:Patient.name=…, patient.identifier=…
    private Condition? Chain(string type, string link, string rest, string value, int depth)
    {
        var colon = link.IndexOf(':', StringComparison.Ordinal);
        var (name, wanted) = colon < 0 ? (link, null) : (link[..colon], link[(colon + 1)..]);
        if (ParameterCatalog.Find(type, name) is not { Kind: SearchParamType.Reference } parameter)
        {
            return null;
        }

        var only = parameter.Paths.Select(path => path.OnlyTarget).FirstOrDefault(target => target is not null);
        IEnumerable<string> targets = wanted is not null ? [wanted] : only is not null ? [only] : parameter.Targets;
        var alternatives = new List<Condition>();
        foreach (var target in targets.Where(ResourceTypes.IsKnown))
        {
            if (Read(target, rest, value, depth + 1) is { } inner)
            {
                alternatives.Add(new Condition(
                    $"SELECT x.rid FROM index_reference x JOIN resource r ON r.type=x.type AND r.id=x.target AND r.deleted=0 WHERE x.key=? AND x.base='' AND x.type=? AND {inner.Sql}",
                    [parameter.Key, target, .. inner.Arguments]));
            }
        }

        var all = Condition.Join(" UNION ALL ", alternatives);
        return alternatives.Count == 0 ? null : all with { Sql = $"r.rid IN ({all.Sql})" };
    }

    // R4 search.html#has: _has:Observation:patient:code=…
    private Condition? Has(string type, string rest, string value, int depth)
    {
        var parts = rest.Split(':', 3);
        if (parts.Length < 3 || !ResourceTypes.IsKnown(parts[0])
            || ParameterCatalog.Find(parts[0], parts[1]) is not { Kind: SearchParamType.Reference } parameter
            || Read(parts[0], parts[2], value, depth + 1) is not { } inner)
        {
            return null;
        }

        return new Condition(
            $"r.id IN (SELECT x.target FROM index_reference x JOIN resource r ON r.rid=x.rid AND r.deleted=0 WHERE x.key=? AND x.base='' AND x.type=? AND {inner.Sql})",
            [parameter.Key, type, .. inner.Arguments]);
    }
}
