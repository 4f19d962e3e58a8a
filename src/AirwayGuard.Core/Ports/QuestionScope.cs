using System.Collections.Immutable;
using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Ports;

/// <summary>
/// What of a patient's chart a question needs. It reaches patients, encounters, places, devices and metrics by the links between them, as
/// <see cref="Scope.OfPatient"/> does, and never goes through acts, orders, rows or group keys, so that what it costs does not grow with the
/// stay. Of <see cref="LinkKind.NamedWith"/>, which each reading that names its device makes anew, it holds those of the window; of a device
/// that was named at other times only, the one that ended last.
/// </summary>
/// <param name="Always">Their facts over the whole stay, timeless ones too.</param>
/// <param name="Recent">Their facts that lie in the window, reach into it or are timeless. One that is named in both counts as always.</param>
/// <param name="Window">By effective time.</param>
public sealed record QuestionScope(ImmutableArray<Concept> Always, ImmutableArray<Concept> Recent, TimeRange Window)
{
    /// <summary>
    /// UTC ticks. Of what is charted of the patient before it, each concept of <see cref="Always"/> counts with the latest time at which it was charted, and
    /// with what reaches beyond: a row charted every shift says the same again. The beginning of time: all of it counts.
    /// </summary>
    public long Since { get; init; } = long.MinValue;
}
