using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Suctioning;

/// <summary>One fact of a setting, before those of its line and instant are put together.</summary>
/// <param name="Fact">Its index in the timeline.</param>
/// <param name="Regulator">The regulator it names, or none.</param>
internal readonly record struct SettingDraft(long At, Line Line, int Fact, Entity Regulator, bool UseUnknown, bool PatientUnclear);
