namespace AirwayGuard.Core.Charting;

/// <summary>Kinds of entity. At most 15.</summary>
public enum EntityKind : byte
{
    None,
    Patient,

    /// <summary>A FHIR Location.</summary>
    Place,

    /// <summary>A FHIR Device.</summary>
    Device,

    /// <summary>A FHIR DeviceMetric.</summary>
    Metric,
    Encounter,

    /// <summary>A FHIR ServiceRequest or DeviceRequest.</summary>
    Order,

    /// <summary>A FHIR Procedure.</summary>
    Act,

    /// <summary>A FHIR Observation.</summary>
    Row,

    /// <summary>A FHIR DeviceUseStatement, Condition, or other resource that only ties things together.</summary>
    Statement,

    /// <summary>A source's own code, <c>system|code</c>: which flowsheet row a value stands in.</summary>
    RowCode,

    /// <summary>A grouping key: the shared prefix of identifiers.</summary>
    GroupKey,
    Practitioner,
}
