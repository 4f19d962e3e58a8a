using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Fhir.Terminology;

/// <summary>What a group of a map leads to.</summary>
internal enum MapTarget : byte
{
    Row, Answer, DeviceKind, Unit,
}

/// <summary>One code of a map and what it leads to; null row and negative answer for what is left out on purpose.</summary>
internal sealed record MapEntry(MapTarget Target, string System, string Code, string Display, RowMapping? Row, int Answer, Unit Unit);
