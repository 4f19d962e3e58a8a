using System.Globalization;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Intake;
using AirwayGuard.Host.Service.CdsHooks;
using AirwayGuard.Worker.Backlog;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Judging;
using AirwayGuard.Worker.Sending;

namespace AirwayGuard.Host.Service.Metrics;

/// <summary>What <c>/metrics</c> answers. Read from the ledger at most every few seconds, however often it is asked for.</summary>
internal sealed class ServiceMetrics(ILedger ledger, ServicePlan plan, BasisInForce basis, ServiceState state, IntakeHealth health, ServerContact contact, ReadingTally tally, BacklogReader backlog, Unsent unsent, NoticeRefusals refusals, HookCounts hooks, TimeProvider clock) : IDisposable
{
    private static readonly TimeSpan Fresh = TimeSpan.FromSeconds(5);

    private readonly SemaphoreSlim _one = new(1, 1);
    private string _text = "";
    private DateTimeOffset _until;

    public async Task<string> ReadAsync(CancellationToken stop)
    {
        await _one.WaitAsync(stop);
        try
        {
            var now = clock.GetUtcNow();
            if (now >= _until || _text.Length == 0)
            {
                _text = await WriteAsync(now, stop);
                _until = now + Fresh;
            }

            return _text;
        }
        finally
        {
            _one.Release();
        }
    }

    public void Dispose() => _one.Dispose();

    private async Task<string> WriteAsync(DateTimeOffset now, CancellationToken stop)
    {
        var text = new PrometheusText();
        var stands = await ledger.StateAsync(stop);
        text.Gauge("airwayguard_ready", "1 once everything was asked for at least once and what was there is judged.", state.IsReady ? 1 : 0);
        text.Gauge("airwayguard_live", "1 if findings are written to the server, 0 if they are recorded only.", basis.Current.Speaks ? 1 : 0);
        var silence = contact.Silence;
        text.Gauge("airwayguard_server_answers", "1 while the FHIR server answers, 0 from when it does not.", silence is null ? 1 : 0);
        text.Gauge("airwayguard_server_silent_seconds", "Since the FHIR server stopped answering, else 0.", silence is null ? 0 : Math.Max(0, (now - silence.Since).TotalSeconds));
        text.Counter("airwayguard_arrivals_total", "Resource versions and other arrivals kept.", stands.Arrivals);
        text.Gauge("airwayguard_patients_waiting", "Patients with charting that was not judged yet.", stands.PatientsWaiting);
        (await FindingCounts.ReadAsync(ledger, basis.Current.Rules, stop)).Write(text);
        text.Begin("airwayguard_outbox", "gauge", "Outgoing messages by state; unknown were sent without an answer.");
        text.Sample("airwayguard_outbox", stands.Pending, ("state", "pending"));
        text.Sample("airwayguard_outbox", stands.Unknown, ("state", "unknown"));
        text.Sample("airwayguard_outbox", stands.Confirmed, ("state", "confirmed"));
        text.Gauge(
            "airwayguard_outbox_oldest_seconds", "How long the oldest of what waits to be sent has waited, else 0.",
            unsent.Oldest is { } oldest ? Math.Max(0, (now - oldest).TotalSeconds) : 0);
        text.Gauge("airwayguard_parked", "Arrivals, messages and patients' files set aside for a person.", stands.Parked);
        text.Begin("airwayguard_parked_by_code", "gauge", "The same, by code.");
        foreach (var (code, count) in await ParkedCounts.ReadAsync(ledger, stop))
        {
            text.Sample("airwayguard_parked_by_code", count, ("code", code));
        }

        text.Gauge("airwayguard_patients_charted_ahead", "Patients whose charts hold a row that is dated ahead and waits for its time.", stands.PatientsAhead);
        text.Begin("airwayguard_problems_total", "counter", "Resources read with a problem since the start, by code.");
        foreach (var (code, count) in tally.Problems)
        {
            text.Sample("airwayguard_problems_total", count, ("code", code));
        }

        text.Counter("airwayguard_rows_not_mapped_total", "Rows kept since the start whose codes no map knows.", tally.NotMapped);
        text.Begin("airwayguard_notices_refused_total", "counter", "Notices turned away since the start, by HTTP status.");
        foreach (var (status, count) in refusals.Counts)
        {
            text.Sample("airwayguard_notices_refused_total", count, ("status", status.ToString(CultureInfo.InvariantCulture)));
        }

        text.Begin("airwayguard_trouble", "gauge", "1 for each trouble that stands now, by code and part of the service.");
        foreach (var (where, code) in health.Standing)
        {
            text.Sample("airwayguard_trouble", 1, ("code", code), ("part", where));
        }

        hooks.Write(text);
        await AgesAsync(text, stands, now, stop);
        return text.ToString();
    }

    private async Task BacklogAsync(PrometheusText text, CancellationToken stop)
    {
        var behind = await backlog.ReadAsync(stop);
        text.Begin("airwayguard_behind_seconds", "gauge", "Age of the oldest change that may not have been read, or was not judged yet; no sample before everything was asked for once.");
        if (behind.Behind is { } age)
        {
            text.Sample("airwayguard_behind_seconds", Math.Max(0, age.TotalSeconds));
        }

        text.Begin("airwayguard_catching_up_seconds", "gauge", "About how long reading, judging and sending all of it takes at the paces measured; no sample while that is not known, as when the server does not answer.");
        if (behind.Remaining is { } remaining)
        {
            text.Sample("airwayguard_catching_up_seconds", remaining.TotalSeconds);
        }
    }

    private async Task AgesAsync(PrometheusText text, LedgerState stands, DateTimeOffset now, CancellationToken stop)
    {
        if (await ledger.ArrivalAsync(stands.Newest, stop) is { } newest)
        {
            var age = Math.Max(0, (now - newest.KnownAt).TotalSeconds);
            text.Gauge("airwayguard_newest_arrival_age_seconds", "Since the newest arrival became known.", age);
        }

        var oldest = stands.OldestWaiting is { } waiting ? await ledger.ArrivalAsync(waiting, stop) : null;
        text.Gauge(
            "airwayguard_judging_behind_seconds", "Since the oldest arrival that was not judged yet became known, else 0.",
            oldest is null ? 0 : Math.Max(0, (now - oldest.KnownAt).TotalSeconds));

        await BacklogAsync(text, stop);
        text.Begin("airwayguard_sweep_age_seconds", "gauge", "Up to how long ago everything was asked for, by question; moves at least once a minute.");
        foreach (var query in SweepQueries.For(plan.Map))
        {
            if (await ledger.CursorAsync("sweep:" + query.Name, stop) is { } cursor)
            {
                text.Sample("airwayguard_sweep_age_seconds", Math.Max(0, (now - cursor.ServerTime).TotalSeconds), ("question", query.Name));
            }
        }
    }
}
