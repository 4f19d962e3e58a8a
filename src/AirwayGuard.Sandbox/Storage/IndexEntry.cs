namespace AirwayGuard.Sandbox.Storage;

/// <summary>One value of one search parameter of one resource; <paramref name="Key"/> is <c>Type.parameter</c>.</summary>
internal abstract record IndexEntry(string Key);

/// <summary>A code with its system; system is empty when absent and <see cref="Implicit"/> where the element's binding gives it.</summary>
internal sealed record TokenEntry(string Key, string System, string Code) : IndexEntry(Key)
{
    public const string Implicit = "*";
}

/// <summary>A reference: local ones have an empty <paramref name="Base"/>; those that are no RESTful address an empty type.</summary>
internal sealed record ReferenceEntry(string Key, string Type, string Target, string Base) : IndexEntry(Key);

/// <summary>A half-open span of time in UTC ticks.</summary>
internal sealed record DateEntry(string Key, long Low, long High) : IndexEntry(Key);

/// <summary>A text, folded for comparison and as given.</summary>
internal sealed record StringEntry(string Key, string Folded, string Exact) : IndexEntry(Key);

/// <summary>A number or quantity.</summary>
internal sealed record NumberEntry(string Key, double Value, string System, string Code, string Unit) : IndexEntry(Key);
