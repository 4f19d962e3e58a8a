namespace AirwayGuard.Fhir.Client;

/// <summary>How long a server asks to wait (RFC 9110 §10.2.3): seconds, or a date.</summary>
internal static class RetryAfter
{
    /// <summary>A longer wait is a mistake of the server's, or of something before it, and would look like an outage of ours.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromHours(1);

    /// <summary>
    /// Null where the server does not say. A date is held against our clock; where the two are apart the bounds hold all the same:
    /// never below zero, never over <see cref="Longest"/>.
    /// </summary>
    public static TimeSpan? Of(HttpResponseMessage response, TimeProvider clock)
    {
        if (response.Headers.RetryAfter is not { } header)
        {
            return null;
        }

        var wait = header.Delta ?? header.Date - clock.GetUtcNow() ?? TimeSpan.Zero;
        return wait < TimeSpan.Zero ? TimeSpan.Zero : wait > Longest ? Longest : wait;
    }
}
