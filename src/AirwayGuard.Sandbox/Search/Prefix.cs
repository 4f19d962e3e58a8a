namespace AirwayGuard.Sandbox.Search;

/// <summary>The comparison in front of ordered values (R4 search.html#prefix); none means equal.</summary>
internal static class Prefix
{
    public static (string Prefix, string Value) Take(string value) =>
        value.Length > 2 && value[..2] is "eq" or "ne" or "gt" or "lt" or "ge" or "le" or "sa" or "eb" or "ap"
            ? (value[..2], value[2..])
            : ("eq", value);
}
