using System.Collections.Immutable;

namespace AirwayGuard.TestKit.Histories;

/// <summary>A patient's history in plain words: what an EHR would hold, before it is FHIR.</summary>
/// <param name="Patient">Id of the patient.</param>
/// <param name="BirthDate">yyyy, yyyy-MM or yyyy-MM-dd, or none.</param>
public sealed record History(
    string Patient,
    string? BirthDate,
    ImmutableArray<Stay> Stays,
    ImmutableArray<Thing> Things,
    ImmutableArray<ThingUse> Uses,
    ImmutableArray<Metric> Metrics,
    ImmutableArray<SuctionAct> Acts,
    ImmutableArray<ChartRow> Rows,
    ImmutableArray<SuctionOrder> Orders)
{
    /// <summary>Ids of Locations.</summary>
    public ImmutableArray<string> Places { get; init; } = [];

    public static History Empty(string patient, string? birthDate) => new(patient, birthDate, [], [], [], [], [], [], []);

    public History With(params ChartRow[] rows) => this with { Rows = [.. Rows, .. rows] };
}

/// <summary>An encounter.</summary>
/// <param name="Class">Its class, of v3-ActCode: IMP, EMER, AMB or HH.</param>
public sealed record Stay(string Id, DateTimeOffset Start, DateTimeOffset? End, string Class = "IMP");

/// <summary>A Device, by its kind of <c>device-kind</c>; diameter in millimetres, size in French, use of <c>suction-use</c>.</summary>
public sealed record Thing(string Id, string Kind, decimal? InnerDiameter = null, decimal? French = null, string? Use = null)
{
    public string Reference => "Device/" + Id;
}

/// <summary>A DeviceUseStatement of a tube or an inner cannula.</summary>
public sealed record ThingUse(string Id, string Thing, DateTimeOffset Start, DateTimeOffset? End);

/// <summary>A DeviceMetric of a regulator; <paramref name="Category"/> is setting or measurement.</summary>
/// <param name="Calibrated">calibration.time, or none.</param>
public sealed record Metric(string Id, string Thing, string Category, DateTimeOffset? Calibrated = null)
{
    public string Reference => "DeviceMetric/" + Id;
}

/// <summary>A Procedure of suctioning.</summary>
/// <param name="End">None where only the instant is charted.</param>
/// <param name="Parent">Id of the Procedure it is part of, or none.</param>
/// <param name="Used">Ids of the devices it names.</param>
public sealed record SuctionAct(
    string Id, DateTimeOffset Start, DateTimeOffset? End, string Status, string? Stay, string? Parent, ImmutableArray<string> Used)
{
    /// <summary>Id of the order it was done on, or none.</summary>
    public string? Order { get; init; }

    public string Reference => "Procedure/" + Id;
}

/// <summary>A suction order with structured values only: a ServiceRequest, and a DeviceRequest where it names equipment.</summary>
/// <param name="Frequency">Times per <paramref name="Period"/>, or none where no timing is given.</param>
/// <param name="PeriodUnit">FHIR's Timing.repeat.periodUnit: min, h, d.</param>
/// <param name="AsNeeded">asNeededBoolean, or none.</param>
/// <param name="Vacuum">Ordered vacuum, or none.</param>
/// <param name="Catheter">Ordered catheter size, or none.</param>
public sealed record SuctionOrder(
    string Id, DateTimeOffset Authored, string Status, string Intent, string? Stay, int? Frequency, decimal? Period, string? PeriodUnit,
    bool? AsNeeded, bool DoNotPerform, Charted.Number? Vacuum, Charted.Number? Catheter)
{
    /// <summary>The lower end where the vacuum is a range.</summary>
    public decimal? VacuumLow { get; init; }

    /// <summary>Mode of the regulator it asks for, or none.</summary>
    public string? Mode { get; init; }

    /// <summary>open, closed, or none.</summary>
    public string? System { get; init; }

    /// <summary>A depth in words or centimetres, or none.</summary>
    public Charted? Depth { get; init; }

    /// <summary>Saline, yes or no or millilitres, or none.</summary>
    public Charted? Saline { get; init; }

    /// <summary>Oxygen before a pass, yes or no or a percentage, or none.</summary>
    public Charted? Preoxygenation { get; init; }

    /// <summary>An allowance-reason, or none.</summary>
    public string? Reason { get; init; }

    public string Reference => "ServiceRequest/" + Id;
}
