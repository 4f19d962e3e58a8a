namespace AirwayGuard.Core.Charting;

/// <summary>How one entity belongs to another, read "from … to".</summary>
public enum LinkKind : byte
{
    None,

    /// <summary>Device in, on or used by a patient: DeviceUseStatement, or Device.patient without a time.</summary>
    UsedBy,

    /// <summary>Device at a place: Device.location.</summary>
    StandsAt,

    /// <summary>Encounter of a patient.</summary>
    EncounterOf,

    /// <summary>Encounter at a place: Encounter.location.</summary>
    TakesPlaceAt,

    /// <summary>Metric of a device: DeviceMetric.source, else parent.</summary>
    MetricOf,

    /// <summary>Row or act that is part of an act: partOf.</summary>
    PartOf,

    /// <summary>Row that is a member of a panel row: hasMember, read from the member.</summary>
    MemberOf,

    /// <summary>Act that used or manipulated a device, when: usedReference, focalDevice.</summary>
    Uses,

    /// <summary>Act or order based on an order: basedOn.</summary>
    BasedOn,

    /// <summary>Row about a device besides its subject: Observation.focus.</summary>
    FocusOn,

    /// <summary>Order for a patient.</summary>
    OrderFor,

    /// <summary>Act done to a patient.</summary>
    DoneTo,

    /// <summary>Device or metric that a vacuum, regulator or pass row of a patient names as its source.</summary>
    NamedWith,

    /// <summary>Panel row of a patient: an Observation with hasMember, to its patient.</summary>
    PanelOf,

    /// <summary>Orders that share a groupIdentifier or requisition; to a group key.</summary>
    GroupedBy,

    /// <summary>An order that takes another's place: replaces.</summary>
    Replaces,
}
