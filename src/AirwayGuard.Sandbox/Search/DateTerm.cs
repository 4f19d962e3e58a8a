namespace AirwayGuard.Sandbox.Search;

/// <summary>Date values with their prefixes (R4 search.html#prefix and #date).</summary>
internal static class DateTerm
{
    /// <param name="name">The parameter's name, for the refusal.</param>
    /// <param name="value">Prefix and date.</param>
    /// <param name="now">The server's time, for <c>ap</c>.</param>
    /// <param name="low">SQL of the start of the resource's span.</param>
    /// <param name="high">SQL of its end, not part of it, or of the start of spans that all have one <paramref name="width"/>.</param>
    /// <param name="width">That width in ticks: kept out of the SQL, so that an index can serve it.</param>
    public static Condition Read(string name, string value, DateTimeOffset now, string low, string high, long width = 0)
    {
        var (prefix, text) = Prefix.Take(value);
        if (!DateSpan.TryParse(text, out var span))
        {
            throw new SandboxRefusalException(SandboxFault.ParameterUnreadable, 400, "value", $"{name} has a value that is not a date.");
        }

        // R4 search.html#prefix recommends a tenth of the gap to now.
        var margin = Math.Abs(now.UtcTicks - span.Low) / 10;
        return prefix switch
        {
            "eq" => Condition.Of($"({low}>=? AND {high}<=?)", span.Low, span.High - width),
            "ne" => Condition.Of($"NOT ({low}>=? AND {high}<=?)", span.Low, span.High - width),
            "gt" => Condition.Of($"{high}>?", span.High - width),
            "ge" => Condition.Of($"{high}>?", span.Low - width),
            "lt" => Condition.Of($"{low}<?", span.Low),
            "le" => Condition.Of($"{low}<?", span.High),
            "sa" => Condition.Of($"{low}>=?", span.High),
            "eb" => Condition.Of($"{high}<=?", span.Low - width),
            _ => Condition.Of($"({low}<? AND {high}>?)", span.High + margin, span.Low - margin - width),
        };
    }
}
