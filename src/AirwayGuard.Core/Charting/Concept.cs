using System.Diagnostics.CodeAnalysis;

namespace AirwayGuard.Core.Charting;

/// <summary>What a fact says something about: an index into the fixed table of <see cref="Concepts"/>.</summary>
public readonly record struct Concept(ushort Index)
{
    /// <summary>Its code in CodeSystem <c>…/CodeSystem/airway-care</c>, or a name of our own for what only the resources themselves carry.</summary>
    [SuppressMessage("Design", "CA1065", Justification = "An index outside the table is a bug.")]
    public string Code => Concepts.Table[Index].Code;

    /// <inheritdoc />
    public override string ToString() => Code;
}
