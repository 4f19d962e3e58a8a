using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Host.Service.Metrics;

/// <summary>
/// What the ledger holds, counted by check: one finding per spell of a check that stands, per occurrence of one that does not, as
/// <c>check</c> lists them. Counted from what is recorded, so a restart loses nothing.
/// </summary>
internal sealed class FindingCounts
{
    private static readonly FindingState[] States = [FindingState.Open, FindingState.Cleared, FindingState.Withdrawn, FindingState.ClosedByPerson];

    private static readonly (Withholding Reason, string Word)[] Reasons =
    [
        (Withholding.Silent, "silent"), (Withholding.SaidByAnotherCheck, "said-by-another-check"), (Withholding.Old, "old"), (Withholding.OverBeforeJudged, "over-before-judged"),
        (Withholding.BeforePolicy, "before-policy"),
    ];

    private readonly SortedDictionary<string, long[]> _states = new(StringComparer.Ordinal);
    private readonly SortedDictionary<string, (long Shown, long Withheld)> _raised = new(StringComparer.Ordinal);
    private readonly SortedDictionary<string, long> _late = new(StringComparer.Ordinal);
    private readonly long[] _reasons = new long[Reasons.Length];
    private readonly SortedDictionary<string, (long Lines, long Times)> _cannotTell = new(StringComparer.Ordinal);

    /// <summary>How many times a patient was judged.</summary>
    public long Judged { get; private set; }

    public static async Task<FindingCounts> ReadAsync(ILedger ledger, RuleSet rules, CancellationToken stop)
    {
        var counts = new FindingCounts();
        foreach (var rule in rules.Rules)
        {
            counts.Know(rule.Id);
        }

        await foreach (var history in ledger.HistoryAsync(new HistoryRange(new TimeRange(long.MaxValue, long.MaxValue), Position.Never, 0, 1), stop))
        {
            using (history.Facts)
            {
                counts.Judged += history.JudgedAt.Length;
                foreach (var record in await ledger.FindingsAsync(history.Patient, stop))
                {
                    counts.Add(record);
                }
            }
        }

        return counts;
    }

    public void Write(PrometheusText text)
    {
        text.Counter("airwayguard_judgements_total", "Times a patient's chart was judged.", Judged);
        text.Begin("airwayguard_findings", "gauge", "Findings recorded, by check, verdict and state.");
        foreach (var (check, states) in _states)
        {
            for (var i = 0; i < States.Length; i++)
            {
                text.Sample("airwayguard_findings", states[i], ("check", check), ("verdict", "breach"), ("state", Words(States[i])));
            }

            text.Sample("airwayguard_findings", _cannotTell[check].Lines, ("check", check), ("verdict", "cannot-tell"), ("state", "open"));
        }

        text.Begin("airwayguard_cannot_tell_subjects", "gauge", "Passes, settings, sessions and orders that a check could not judge for want of charting.");
        foreach (var (check, (_, times)) in _cannotTell)
        {
            text.Sample("airwayguard_cannot_tell_subjects", times, ("check", check));
        }

        Raised(text, "airwayguard_findings_raised_total", "Breaches ever recorded, shown or not.", static one => one.Shown + one.Withheld);
        Raised(text, "airwayguard_findings_shown_total", "Of these, sent to the server.", static one => one.Shown);
        Raised(text, "airwayguard_findings_withheld_total", "Of these, recorded only.", static one => one.Withheld);
        text.Begin("airwayguard_findings_withheld_by_reason_total", "counter", "The same, by why: silent, another check says it, too old to be shown as new, over before judged, over before the policy came into force.");
        for (var i = 0; i < Reasons.Length; i++)
        {
            text.Sample("airwayguard_findings_withheld_by_reason_total", _reasons[i], ("reason", Reasons[i].Word));
        }

        text.Begin("airwayguard_breaches_late_total", "counter", "Breaches that became known late: charted late, or judged late after an outage.");
        foreach (var (check, late) in _late)
        {
            text.Sample("airwayguard_breaches_late_total", late, ("check", check));
        }
    }

    private void Raised(PrometheusText text, string name, string help, Func<(long Shown, long Withheld), long> of)
    {
        text.Begin(name, "counter", help);
        foreach (var (check, one) in _raised)
        {
            text.Sample(name, of(one), ("check", check));
        }
    }

    private void Know(string check)
    {
        _states.TryAdd(check, new long[States.Length]);
        _raised.TryAdd(check, default);
        _cannotTell.TryAdd(check, default);
        _late.TryAdd(check, 0);
    }

    private void Add(FindingRecord record)
    {
        Know(record.Check);
        if (record.Kind == FindingKind.CannotTell)
        {
            CountCannotTell(record);
            return;
        }

        _late[record.Check] += record.Late ? 1 : 0;
        if (record.Kind == FindingKind.Occurrence && record.Parent != Guid.Empty)
        {
            return;
        }

        _states[record.Check][Array.IndexOf(States, record.State)]++;
        var before = _raised[record.Check];
        var content = FindingContent.Read(record.Content.Span);
        if (content.Sent)
        {
            _raised[record.Check] = before with { Shown = before.Shown + 1 };
            return;
        }

        // A record from before the reason was kept says only that it was not sent.
        _raised[record.Check] = before with { Withheld = before.Withheld + 1 };
        _reasons[Math.Max(0, Array.FindIndex(Reasons, one => one.Reason == content.Withheld))]++;
    }

    // As check lists them: once per line, and those of silent rules not at all.
    private void CountCannotTell(FindingRecord record)
    {
        if (record.State == FindingState.Open && FindingContent.Read(record.Content.Span).Withheld == Withholding.None)
        {
            var (lines, times) = _cannotTell[record.Check];
            _cannotTell[record.Check] = (lines + 1, times + record.Count);
        }
    }

    private static string Words(FindingState state) => state switch
    {
        FindingState.Open => "open",
        FindingState.Cleared => "cleared",
        FindingState.Withdrawn => "withdrawn",
        _ => "closed-by-person",
    };
}
