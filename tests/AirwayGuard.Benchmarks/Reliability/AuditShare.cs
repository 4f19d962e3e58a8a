using AirwayGuard.Benchmarks.Harness;
using AirwayGuard.Benchmarks.Intake;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Benchmarks.Reliability;

/// <summary>What the audit trail costs of keeping and judging: the same entries appended once more, alone, to another ledger, against the whole work they came of.</summary>
internal static class AuditShare
{
    private const int Patients = 20, Sessions = 20, AtOnce = 100, Rounds = 3;

    /// <returns>Share of the CPU time, median with lowest and highest; and how many entries and rows it was.</returns>
    public static async Task<(double Share, double Low, double High, int Entries, long Rows)> MeasureAsync()
    {
        var shares = new List<double>();
        var (entries, rows) = (0, 0L);
        for (var round = 0; round <= Rounds; round++)
        {
            await using var ward = await Ward.OpenAsync();
            var groups = ward.Read(Patients, Sessions);
            var whole = await Cost.OfAsync(async () =>
            {
                foreach (var group in groups)
                {
                    await ward.KeepAsync(group);
                    await ward.JudgeAsync();
                }

                return groups.Sum(static group => (long)group.Count);
            });
            var notes = new List<AuditNote>();
            await foreach (var entry in ward.Ledger.AuditTrailAsync(CancellationToken.None))
            {
                // A body of the length of a digest, since the body itself is hashed where it is kept.
                notes.Add(new AuditNote(entry.What, entry.Subject, entry.Detail, new byte[32]));
            }

            await using var other = await Ward.OpenAsync();
            var alone = await Cost.OfAsync(async () =>
            {
                foreach (var some in notes.Chunk(AtOnce))
                {
                    await other.Ledger.AuditAsync(some, default, CancellationToken.None);
                }

                return notes.Count;
            });
            if (round > 0)
            {
                shares.Add(alone.Cpu / whole.Cpu);
                (entries, rows) = (notes.Count, whole.Units);
            }
        }

        return (Standing.Median(shares), shares.Min(), shares.Max(), entries, rows);
    }
}
