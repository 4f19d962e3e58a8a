namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// The grouping key that sources leave in the identifiers of rows of one column: the value up to its last separator
/// (<c>row/88120/2025-03-04T14:02/31001</c> → <c>row/88120/2025-03-04T14:02</c>).
/// </summary>
internal static class GroupKey
{
    /// <summary>Length of the shared prefix; 0 where the identifier gives none.</summary>
    public static int PrefixLength(ReadOnlySpan<byte> value)
    {
        if (value.StartsWith("urn:"u8) || value.IndexOf("://"u8) >= 0)
        {
            return 0;
        }

        var end = value.LastIndexOfAny("/|^#"u8);

        // A prefix without a digit is a name for all rows of the source, not for one column.
        return end > 0 && value[..end].IndexOfAnyInRange((byte)'0', (byte)'9') >= 0 ? end : 0;
    }
}
