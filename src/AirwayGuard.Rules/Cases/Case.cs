using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Cases;

/// <summary>One invented chart, and what a rule set must make of it.</summary>
/// <param name="About">The checks it is about: of these nothing may appear that is not listed.</param>
/// <param name="Born">A date of any precision; null where it is not charted.</param>
/// <param name="Stay">Class of the encounter its rows name; empty for none.</param>
/// <param name="AsOf">UTC ticks at which absences are judged; null: the latest time charted, all waits over.</param>
internal sealed record Case(
    Place At,
    string Name,
    ImmutableArray<string> About,
    FactValue? Born,
    string Stay,
    UnknownAge UnknownAge,
    long? AsOf,
    ImmutableArray<CaseThing> Things,
    ImmutableArray<CaseRow> Rows,
    ImmutableArray<CaseOrder> Orders,
    ImmutableArray<CaseFinding> Finds,
    ImmutableArray<CaseOpen> CannotTell);

/// <summary>A charted value.</summary>
internal readonly record struct CaseValue(Concept Concept, FactValue Value);

/// <summary>A device that rows may name, in use by the patient where a time is given.</summary>
/// <param name="StandsAt">Name of the place it stands at; empty for none.</param>
internal sealed record CaseThing(string Id, int Kind, string StandsAt, long? UsedFrom, long? UsedUntil, ImmutableArray<CaseValue> Properties);

/// <summary>One row of the chart with everything charted in it.</summary>
/// <param name="Device">The device it names as its source; empty for none.</param>
/// <param name="Of">The device it is about; empty where it is about the patient.</param>
/// <param name="Uses">Devices that the pass used.</param>
/// <param name="Under">The order by which the pass was made; empty for none.</param>
internal sealed record CaseRow(long From, long Until, string Device, string Of, ImmutableArray<string> Uses, string Under, ImmutableArray<CaseValue> Values)
{
    /// <summary>Only a procedure tells what it used and by which order it was made; whatever else the row charts is part of it.</summary>
    public bool IsProcedure => Uses.Length > 0 || Under.Length > 0;
}

/// <param name="Replaces">Id of the order whose place it takes; empty for none.</param>
internal sealed record CaseOrder(string Id, long Authored, int Status, string Replaces, ImmutableArray<CaseValue> Says);

/// <summary>A finding that must appear; what is null is not compared.</summary>
/// <param name="HasFlag">It stands, so that a Flag is raised of it.</param>
internal sealed record CaseFinding(
    string Check, long? At, long? Latest, Severity? Severity, CaseAmount? Value, string? Code, int? Count, AgeBand? Band, bool? IsOpen, bool IsWithheld, bool? HasFlag);

internal readonly record struct CaseAmount(decimal Number, Unit Unit);

/// <summary>What must be left open, and for lack of what; what is null is not compared.</summary>
internal sealed record CaseOpen(string Check, long? At, string? Missing, int? Count);
