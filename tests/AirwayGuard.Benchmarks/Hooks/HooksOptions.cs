namespace AirwayGuard.Benchmarks.Hooks;

/// <summary>How much is measured.</summary>
/// <param name="Service">The program, <c>airwayguard.dll</c>.</param>
/// <param name="Rounds">Runs of all of it, one after the other.</param>
/// <param name="Requests">Requests of each call and number of callers in a run.</param>
/// <param name="Days">Length of the longer stay; the shorter has ten.</param>
internal sealed record HooksOptions(string Service, int Rounds, int Requests, int Days);
