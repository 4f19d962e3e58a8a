using System.Collections.Concurrent;
using AirwayGuard.Fhir.CdsHooks;
using AirwayGuard.Host.Service.Metrics;
using AirwayGuard.Worker.Questions;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>How often was asked, and how long the answers took. Safe for concurrent use; nothing is kept over a restart.</summary>
internal sealed class HookCounts
{
    // Upper ends of the buckets, seconds; the standard expects answers in about half a second.
    private static readonly double[] Buckets = [0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5];

    private readonly ConcurrentDictionary<(string Service, int Status), long> _answers = new();
    private readonly ConcurrentDictionary<string, long> _cards = new(StringComparer.Ordinal);
    private readonly long[] _within = new long[Buckets.Length];
    private long _feedback, _timed, _ticks;

    public void Answered(string service, IReadOnlyCollection<Card> cards, TimeSpan took)
    {
        Count(service, StatusCodes.Status200OK);
        foreach (var card in cards)
        {
            _cards.AddOrUpdate(card.Source.Topic?.Code ?? "", 1, static (_, before) => before + 1);
        }

        Interlocked.Increment(ref _timed);
        Interlocked.Add(ref _ticks, took.Ticks);
        for (var i = 0; i < Buckets.Length; i++)
        {
            if (took.TotalSeconds <= Buckets[i])
            {
                Interlocked.Increment(ref _within[i]);
            }
        }
    }

    public void Refused(string service, int status) => Count(service, status);

    public void Told(int kept) => Interlocked.Add(ref _feedback, kept);

    public void Write(PrometheusText text)
    {
        text.Begin("airwayguard_hook_answers_total", "counter", "Questions of CDS Hooks by service and HTTP status.");
        foreach (var ((service, status), count) in _answers.OrderBy(static one => one.Key.Service, StringComparer.Ordinal).ThenBy(static one => one.Key.Status))
        {
            text.Sample("airwayguard_hook_answers_total", count, ("service", service), ("status", status.ToString(System.Globalization.CultureInfo.InvariantCulture)));
        }

        text.Begin("airwayguard_hook_cards_total", "counter", "Cards given, by check; without a check: what could not be judged.");
        foreach (var (check, count) in _cards.OrderBy(static one => one.Key, StringComparer.Ordinal))
        {
            text.Sample("airwayguard_hook_cards_total", count, ("check", check));
        }

        text.Begin("airwayguard_hook_seconds", "histogram", "Time from a question to its answer.");
        for (var i = 0; i < Buckets.Length; i++)
        {
            text.Sample("airwayguard_hook_seconds_bucket", Interlocked.Read(ref _within[i]), ("le", Buckets[i].ToString(System.Globalization.CultureInfo.InvariantCulture)));
        }

        text.Sample("airwayguard_hook_seconds_bucket", Interlocked.Read(ref _timed), ("le", "+Inf"));
        text.Sample("airwayguard_hook_seconds_sum", TimeSpan.FromTicks(Interlocked.Read(ref _ticks)).TotalSeconds);
        text.Sample("airwayguard_hook_seconds_count", Interlocked.Read(ref _timed));
        text.Counter("airwayguard_hook_feedback_total", "Reports on cards that were new.", Interlocked.Read(ref _feedback));
    }

    // Whatever is called that is no service of ours counts as one: names in an address are endless.
    private void Count(string service, int status) =>
        _answers.AddOrUpdate((HookServices.HookOf(service) is null ? "none" : service, status), 1, static (_, before) => before + 1);
}
