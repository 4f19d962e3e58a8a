using System.Text;
using AirwayGuard.Benchmarks.Charting;
using AirwayGuard.Benchmarks.Intake;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Benchmarks.Year;

/// <summary>
/// Through the ledger and the judging step, as the service does it: a bed's day is one durable group; then what fell due is raised and
/// whoever waits is judged. Messages are written to the outbox and not sent.
/// </summary>
internal sealed class LedgerWay : IYearWay
{
    private readonly Ward _ward;
    private readonly StayReader _reader;

    private LedgerWay(Ward ward) => (_ward, _reader) = (ward, new StayReader(ward.Ledger.Entities));

    public long BytesOnDisk => _ward.BytesOnDisk;

    public static async Task<LedgerWay> OpenAsync() => new(await Ward.OpenAsync());

    public Task KeepAsync(BedDay day, IReadOnlyList<Arrival> rows) => _ward.KeepAsync(_reader.Read(rows));

    public async Task<int> JudgeAsync(IReadOnlyList<BedDay> beds)
    {
        await _ward.RaiseDueAsync();
        await _ward.JudgeAsync();
        var findings = 0;
        foreach (var ended in beds.Where(bed => bed.IsLast))
        {
            var patient = _ward.Ledger.Entities.Intern(EntityKind.Patient, Encoding.UTF8.GetBytes(ended.Stay.Name));
            findings += (await _ward.Ledger.FindingsAsync(patient, CancellationToken.None))
                .Count(record => record.Kind == FindingKind.Occurrence && record.State != FindingState.Withdrawn);
        }

        return findings;
    }

    public ValueTask DisposeAsync() => _ward.DisposeAsync();
}
