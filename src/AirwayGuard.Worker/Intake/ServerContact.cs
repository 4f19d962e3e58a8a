using AirwayGuard.Core.Diagnostics;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Abstractions;

namespace AirwayGuard.Worker.Intake;

/// <summary>
/// Tells a server that is away, or refuses all it is asked, from one that does not answer a single question: an outage is told once, and
/// once that it is over. Safe for concurrent use; nothing is kept over a restart.
/// </summary>
public sealed partial class ServerContact(IntakeHealth health, IntakeOptions options, ILogger<ServerContact>? logger = null)
{
    /// <summary>Its place among what stands.</summary>
    public const string Place = "server";

    private readonly Lock _gate = new();
    // As long as what waits to be written may wait before it is told.
    private static readonly TimeSpan LeftOpen = TimeSpan.FromMinutes(5);

    private readonly Dictionary<string, (DateTimeOffset Since, string Cause)> _open = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Problem> _unanswered = new(StringComparer.Ordinal);
    private readonly HashSet<string> _refused = new(StringComparer.Ordinal);
    private readonly HashSet<string> _untold = new(StringComparer.Ordinal);
    private readonly ILogger _logger = logger ?? NullLogger<ServerContact>.Instance;
    private DateTimeOffset? _lastAnswer;
    private int _asked;
    private DateTimeOffset? _since;
    private ServerSilence? _silence;
    private (Problem Problem, bool IsRefusal)? _cause;

    // Of what is answered something is asked at least that often: where nothing was answered in twice the time, nothing is.
    private TimeSpan Longest => TimeSpan.FromSeconds(2 * Math.Min(options.QuickSeconds, options.WideSeconds));

    /// <summary>Since when it has not answered; null while it does.</summary>
    public ServerSilence? Silence
    {
        get
        {
            lock (_gate)
            {
                return _silence;
            }
        }
    }

    /// <summary>It has answered in this run.</summary>
    public bool HasAnswered
    {
        get
        {
            lock (_gate)
            {
                return _lastAnswer is not null;
            }
        }
    }

    /// <summary>When a question was last answered in this run; null where none was.</summary>
    public DateTimeOffset? LastAnswer
    {
        get
        {
            lock (_gate)
            {
                return _lastAnswer;
            }
        }
    }

    /// <summary>Nothing is answered now, or the last answer to more than three in four questions was a refusal.</summary>
    public bool RefusesNearlyAll
    {
        get
        {
            lock (_gate)
            {
                return _silence is not null || _refused.Count * 4 > _asked * 3;
            }
        }
    }

    /// <summary>Questions left without an answer for 5 minutes while others are answered; null where there are none, or none is answered.</summary>
    public OpenQuestions? Open(DateTimeOffset now)
    {
        lock (_gate)
        {
            var left = _open.Values.Where(one => now - one.Since >= LeftOpen).ToList();
            return _silence is not null || left.Count == 0 ? null : new OpenQuestions(left.Count, left.Min(one => one.Since), left.MinBy(one => one.Since).Cause);
        }
    }

    /// <summary>A question was not answered with what was asked, whatever came in its place.</summary>
    /// <param name="questions">Everything that is asked: where none of it is answered, the server is away.</param>
    /// <param name="isForAll">The server said so of itself, and will not be asked meanwhile.</param>
    /// <param name="status">The HTTP status it was refused with; null where no answer came.</param>
    /// <param name="wasAsked">False where the server was left alone: that is no cause.</param>
    public void Unanswered(
        string query, Problem problem, IReadOnlyList<string> questions, bool isForAll, DateTimeOffset now, int? status = null, bool wasAsked = true)
    {
        lock (_gate)
        {
            _since ??= now;
            var isRefusal = ServerSilence.IsRefusedWith(status);
            _asked = questions.Count;
            if (wasAsked && isRefusal && questions.Contains(query, StringComparer.Ordinal))
            {
                _refused.Add(query);
            }

            if (!isRefusal && questions.Contains(query, StringComparer.Ordinal))
            {
                _open.TryAdd(query, (now, WordsOf(problem)));
            }

            if (wasAsked && questions.Contains(query, StringComparer.Ordinal) && _cause?.IsRefusal != isRefusal)
            {
                // The first is kept: what follows it is often only its echo. One that is away and then refuses has changed.
                _cause = (problem, isRefusal);
            }

            _unanswered[query] = problem;
            if (_silence is null && !isForAll && !questions.All(_unanswered.ContainsKey) && now - (_lastAnswer ?? _since.Value) < Longest)
            {
                if (health.Report(query, problem.Code))
                {
                    _untold.Add(query);
                }

                return;
            }

            var isNews = _silence is null;
            var (cause, refuses) = _cause ?? (problem, isRefusal);
            _silence = new ServerSilence(_since.Value, _unanswered.Count, WordsOf(cause), refuses);
            if (isNews)
            {
                Begin(cause);
            }
        }
    }

    /// <summary>A question was answered.</summary>
    /// <param name="query">Which one; null for all of them.</param>
    /// <returns>Questions that were not and are told now, since the server is there.</returns>
    public IReadOnlyList<(string Query, Problem Problem)> Answered(DateTimeOffset now, string? query = null)
    {
        lock (_gate)
        {
            var untold = _untold.Select(one => (one, _unanswered[one])).ToList();
            if (_silence is { } over)
            {
                health.ClearBut(Place, []);
                LogBack(_logger, Codes.ServerSilent.Id, Seconds(now - over.Since), ServerSilence.Count(over.Questions));
            }

            _unanswered.Clear();
            _untold.Clear();
            foreach (var one in query is null ? [.. _refused, .. _open.Keys] : new[] { query })
            {
                _refused.Remove(one);
                _open.Remove(one);
            }

            (_lastAnswer, _since, _silence, _cause) = (now, null, null, null);
            return untold;
        }
    }

    // One trouble stands for the outage, not one for each question.
    private void Begin(Problem problem)
    {
        foreach (var (query, met) in _unanswered)
        {
            health.Clear(query, met.Code);
        }

        _untold.Clear();
        health.Report(Place, Codes.ServerSilent);
        if (problem.Code != Codes.SweepRefused)
        {
            // Something else answers in its place, and what to do about that is another thing.
            health.Report(Place, problem.Code);
        }

        LogSilent(_logger, Codes.ServerSilent.Id, _silence!.ToString());
    }

    private static string WordsOf(Problem problem) => problem.Why.Length == 0 ? problem.Code.Title : problem.Why;

    private static long Seconds(TimeSpan time) => (long)Math.Max(0, time.TotalSeconds);

    [LoggerMessage(4004, LogLevel.Warning, "{Code}: {Silence}. Nothing is lost: what was asked is asked again until it is answered")]
    private static partial void LogSilent(ILogger logger, string code, string silence);

    [LoggerMessage(4005, LogLevel.Information, "{Code} is over: the FHIR server answers again after {Seconds} s, in which {Questions} had no answer; what was charted meanwhile is read now")]
    private static partial void LogBack(ILogger logger, string code, long seconds, string questions);
}
