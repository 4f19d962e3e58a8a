namespace AirwayGuard.Sandbox.Search;

/// <summary>A search understood: what to match, in which order, how much of it, and what was left aside.</summary>
internal sealed class SearchQuery
{
    public required string Type { get; init; }

    /// <summary>Conditions of which all must hold, as SQL over <c>r</c>, the row of the resource.</summary>
    public List<Condition> Conditions { get; } = [];

    /// <summary>Sort terms as SQL.</summary>
    public List<Condition> Order { get; } = [];

    /// <summary>The parameters that were used, as given, for the <c>self</c> link.</summary>
    public List<KeyValuePair<string, string>> Used { get; } = [];

    /// <summary>Names of parameters that were not known and so ignored.</summary>
    public List<string> Ignored { get; } = [];

    /// <summary>Matches to a page; null for the server's default.</summary>
    public int? Count { get; set; }

    /// <summary>Whether only the number of matches is wanted.</summary>
    public bool CountOnly { get; set; }

    /// <summary>Referenced or referring resources to send along.</summary>
    public List<Inclusion> Inclusions { get; } = [];
}

/// <summary>A piece of SQL and its arguments, each written as <c>?</c>.</summary>
internal sealed record Condition(string Sql, IReadOnlyList<object> Arguments)
{
    /// <summary>Whether it leads from an index to few rows, so that it is the better start than the type.</summary>
    public bool Narrows { get; init; }

    /// <summary>The same asked of one known row, when that is cheaper to write another way.</summary>
    public string? SqlForOne { get; init; }

    public static Condition Of(string sql, params IReadOnlyList<object> arguments) => new(sql, arguments);

    public static Condition Join(string separator, IReadOnlyList<Condition> parts) =>
        new(string.Join(separator, parts.Select(part => part.Sql)), [.. parts.SelectMany(part => part.Arguments)]);
}

/// <summary>An <c>_include</c> or, when <paramref name="Reverse"/>, a <c>_revinclude</c>.</summary>
internal sealed record Inclusion(SearchParameter Parameter, string? TargetType, bool Reverse);
