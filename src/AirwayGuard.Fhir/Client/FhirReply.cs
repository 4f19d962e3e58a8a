namespace AirwayGuard.Fhir.Client;

/// <summary>What became of one call, as far as a caller must decide on it.</summary>
public enum FhirReply : byte
{
    /// <summary>2xx with what was asked for.</summary>
    Done,

    /// <summary>404.</summary>
    NotFound,

    /// <summary>410: it was there and was deleted.</summary>
    Gone,

    /// <summary>409 or 412: another version stands, or several match.</summary>
    Conflict,

    /// <summary>401: signing in is needed; to be tried again.</summary>
    NotSignedIn,

    /// <summary>403, 400, 405, 422, 3xx or any other status that will not change by trying again.</summary>
    Refused,

    /// <summary>429, 408, 5xx or an open circuit: to be tried again; for a write nobody knows whether it was done.</summary>
    TryLater,

    /// <summary>No answer, one that is no FHIR, or one cut short: nobody knows whether it was done.</summary>
    Unclear,

    /// <summary>The gate refused the address; nothing was sent.</summary>
    Outside,
}
