using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Measures one thing of a subject. No clock, log or I/O; says what it used. Sets a value, or what is missing, or neither (does not apply).</summary>
public delegate void MeasureFunction(in Subject subject, in Timeline timeline, Care care, ref Measured result);

/// <summary>Lists the times that run on a patient's lines (or an outlet's) until something is charted.</summary>
public delegate void DueRunSource(in Timeline timeline, Care care, ICollection<DueRun> into);

/// <summary>A named measure. How far it looks is declared, so that what to load, re-judge and ask for is derived.</summary>
/// <param name="Id">Kebab case; the name rule sets use.</param>
/// <param name="Dimension">The kind of its value; a limit's unit must fit.</param>
/// <param name="Unit">The unit its limits are written in when they name none; <see cref="Unit.None"/> for codes and marks.</param>
/// <param name="Codes">The codes it can give, for <c>is</c> and <c>isNot</c>.</param>
/// <param name="MayBeMissing">True where <c>missing</c> is a meaningful comparison.</param>
/// <param name="Meaning">What it is, in a clinician's words.</param>
public sealed record Measure(
    string Id,
    Dimension Dimension,
    Unit Unit,
    ImmutableArray<SubjectKind> Judges,
    ImmutableArray<Concept> Reads,
    TimeSpan LooksBack,
    TimeSpan LooksAhead,
    ImmutableArray<string> Codes,
    bool MayBeMissing,
    string Meaning,
    MeasureFunction Function)
{
    /// <summary>Subjects that a rule does not judge but whose value can end a standing finding of this measure.</summary>
    public ImmutableArray<SubjectKind> ClearedAlsoBy { get; init; } = [];

    /// <summary>An order is held against each airway that was in use since it was written.</summary>
    public bool GoesByAirway { get; init; }

    /// <summary>
    /// For <see cref="SubjectKind.Due"/>: from when time runs. The measure's function may set a value of its own; where it sets
    /// none, the time that ran is compared.
    /// </summary>
    public DueRunSource? Runs { get; init; }

    /// <summary>It sets no value of its own: what is compared is the time that ran, and only whether it ran longer than the limit.</summary>
    public bool OnlyRuns => Function == DueTimes.Elapsed;

    /// <summary>Its codes answer a question and are no charted value: reports show none.</summary>
    public bool ShowsNoValue { get; init; }

    /// <summary>It asks of the charting itself, so that it answers also where nobody can tell what is to be suctioned.</summary>
    public bool AsksOfCharting { get; init; }

    /// <summary>Its value is the difference of two shares, which people read in percentage points.</summary>
    public bool IsDifferenceOfShares { get; init; }

    /// <inheritdoc />
    public override string ToString() => Id;
}
