namespace AirwayGuard.Host.DemoWard;

/// <summary>A unit of Willowmere.</summary>
/// <param name="Key">Prefix of ids.</param>
/// <param name="NamesRegulators">Staff chart the regulator beside what it shows.</param>
/// <param name="Preoxygenates">Oxygen is raised before a pass; never in neonates.</param>
/// <param name="HeartRate">Usual heart rate, per minute.</param>
/// <param name="Breaths">Usual respiratory rate, per minute.</param>
/// <param name="ShortestPass">Shortest usual pass, s.</param>
/// <param name="LongestPass">Longest usual pass, s; within the limit of every band of the unit.</param>
internal sealed record WardUnit(
    string Key, string Name, bool NamesRegulators, bool Preoxygenates, int HeartRate, int Breaths, int ShortestPass, int LongestPass)
{
    public static readonly WardUnit Adult = new("alder", "Alder, adult intensive care", true, true, 84, 16, 8, 14);
    public static readonly WardUnit Paediatric = new("rowan", "Rowan, paediatric intensive care", false, true, 118, 26, 7, 13);
    public static readonly WardUnit Neonatal = new("hazel", "Hazel, neonatal intensive care", false, false, 144, 44, 5, 9);

    public static readonly IReadOnlyList<WardUnit> All = [Adult, Paediatric, Neonatal];
}
