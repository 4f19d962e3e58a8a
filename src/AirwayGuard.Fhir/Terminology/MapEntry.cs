using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Fhir.Terminology;

/// <summary>What a group of a map leads to.</summary>
internal enum MapTarget : byte
{
    Row, Answer, DeviceKind, Unit,
}

/// <summary>One code of a map and what it leads to; null row and negative answer for what is left out on purpose.</summary>
internal sealed record MapEntry(MapTarget Target, string System, string Code, string Display, RowMapping? Row, int Answer, Unit Unit)
{
    /// <summary>The concept whose answer it is; null for every concept that lists the answer.</summary>
    public Concept? AnswerTo { get; init; }
}

/// <summary>An answer and the concept whose answer it is; null for every concept that lists it.</summary>
internal readonly record struct MappedAnswer(int Answer, Concept? To)
{
    public bool Holds(Concept concept) =>
        (To is null || To == concept) && Concepts.Info(concept).Answers.Contains(Answers.Code(Answer), StringComparer.OrdinalIgnoreCase);
}
