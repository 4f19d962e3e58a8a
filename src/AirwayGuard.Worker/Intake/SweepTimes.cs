using System.Globalization;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Intake;

/// <summary>When each question may be, and is to be, asked again.</summary>
internal sealed class SweepTimes(IntakeOptions options)
{
    private readonly Dictionary<string, DateTimeOffset> _nextQuick = new(StringComparer.Ordinal);
    private readonly Dictionary<string, DateTimeOffset> _nextWide = new(StringComparer.Ordinal);
    private readonly Dictionary<string, DateTimeOffset> _nextPull = new(StringComparer.Ordinal);
    private readonly Dictionary<string, DateTimeOffset> _notBefore = new(StringComparer.Ordinal);
    private static readonly TimeSpan ProbeEvery = TimeSpan.FromMinutes(1);
    private DateTimeOffset _heldUntil;
    private DateTimeOffset _nextProbe;

    private TimeSpan Wide => TimeSpan.FromSeconds(options.WideSeconds);

    /// <summary>The server asked to be left alone.</summary>
    public bool IsHeld(DateTimeOffset now) => now < _heldUntil;

    /// <summary>A notice may pull the question forward: the gap after its last sweep began is over.</summary>
    public bool MayPull(string query, DateTimeOffset now) => IsFree(query, now) && now >= _nextPull.GetValueOrDefault(query);

    public bool IsWideDue(string query, DateTimeOffset now) => IsFree(query, now) && now >= _nextWide.GetValueOrDefault(query);

    public bool IsDue(string query, DateTimeOffset now, out bool isWide)
    {
        isWide = IsWideDue(query, now);
        return isWide || (IsFree(query, now) && now >= _nextQuick.GetValueOrDefault(query));
    }

    public void Began(string query, DateTimeOffset now) => _nextPull[query] = now + TimeSpan.FromSeconds(options.NoticeGapSeconds);

    public void Ended(SweepPass pass, DateTimeOffset now)
    {
        _nextQuick[pass.Query] = now + TimeSpan.FromSeconds(options.QuickSeconds);
        if (pass.IsWide)
        {
            _nextWide[pass.Query] = now + Wide;
        }

        // Everything is read each time, or the end is never reached: neither is done for every notice.
        if (pass.IsWhole || !pass.IsComplete)
        {
            _notBefore[pass.Query] = now + Wide;
        }
    }

    /// <summary>After trouble: what the server asks for up to our bound, at least our own wait.</summary>
    public void SetAside(string query, SourcePage page, DateTimeOffset now)
    {
        var wait = page.IsOffered ? TimeSpan.FromSeconds(options.BackOffSeconds) : Wide;
        if (page.RetryAfter is { } asked)
        {
            asked = Bounded(asked);
            wait = asked > wait ? asked : wait;

            // It speaks of us, not of one question.
            _heldUntil = page.IsOffered ? now + asked : _heldUntil;
        }

        _notBefore[query] = now + wait;
        var asksFor = Bounded(page.RetryAfter ?? TimeSpan.Zero);
        var probe = now + (asksFor > ProbeEvery ? asksFor : ProbeEvery);
        _nextProbe = probe > _nextProbe ? probe : _nextProbe;
    }

    /// <summary>Says so of a server that asks for a longer wait than it is given.</summary>
    public static Problem Told(Problem problem, SourcePage page, IntakeOptions options) => page.RetryAfter is { } asked && asked.TotalSeconds > options.LongestWaitSeconds
        ? problem with
        {
            Why = string.Create(
                CultureInfo.InvariantCulture,
                $"{(problem.Why.Length == 0 ? problem.Code.Title : problem.Why)}; it asks for {Math.Ceiling(asked.TotalSeconds)} s, and is asked again after {options.LongestWaitSeconds} s"),
        }
        : problem;

    /// <summary>A minute after the last question that was set aside, or as long after it as the server asked for: one may be asked before its time, to see whether the server answers again.</summary>
    public bool IsProbeDue(DateTimeOffset now) => now >= _nextProbe;

    /// <summary>What was set aside may be asked now: the server answers again.</summary>
    public void Reopen() => _notBefore.Clear();

    private TimeSpan Bounded(TimeSpan asked)
    {
        var longest = TimeSpan.FromSeconds(options.LongestWaitSeconds);
        return asked < longest ? asked : longest;
    }

    private bool IsFree(string query, DateTimeOffset now) => now >= _notBefore.GetValueOrDefault(query);
}
