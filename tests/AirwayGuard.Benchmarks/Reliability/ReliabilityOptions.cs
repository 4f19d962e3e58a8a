namespace AirwayGuard.Benchmarks.Reliability;

/// <summary>How much is measured.</summary>
/// <param name="Service">The program, <c>airwayguard.dll</c>.</param>
/// <param name="Rows">Rows that arrive, a finding each.</param>
/// <param name="Patients">Whom they are about.</param>
/// <param name="Flags">Breaches whose Flag is waited for, one after the other.</param>
/// <param name="Missed">Rows charted while the service is away.</param>
internal sealed record ReliabilityOptions(string Service, int Rows, int Patients, int Flags, int Missed);
