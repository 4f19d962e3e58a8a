using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Host.Service;

/// <summary>
/// Notices that were turned away, by their HTTP status: counted, and told in one line at first and then at most one a minute, since whoever
/// knocks may do so without end. Safe for concurrent use; nothing is kept over a restart.
/// </summary>
internal sealed partial class NoticeRefusals(TimeProvider clock, ILogger<NoticeRefusals> logger)
{
    private static readonly TimeSpan Quiet = TimeSpan.FromMinutes(1);

    private readonly Lock _gate = new();
    private readonly SortedDictionary<int, Refused> _refused = [];

    /// <summary>Since the start, by status.</summary>
    public IReadOnlyList<(int Status, long Count)> Counts
    {
        get
        {
            lock (_gate)
            {
                return [.. _refused.Select(static one => (one.Key, one.Value.All))];
            }
        }
    }

    /// <summary>Notes what was answered to a notice where that was no yes, whichever of the doors said so.</summary>
    public static async Task WatchAsync(HttpContext context, RequestDelegate next)
    {
        try
        {
            await next(context);
        }
        finally
        {
            if (context.Request.Path.StartsWithSegments("/notify", StringComparison.Ordinal) && context.Response.StatusCode >= 400)
            {
                context.RequestServices.GetRequiredService<NoticeRefusals>().Note(context.Response.StatusCode);
            }
        }
    }

    public void Note(int status)
    {
        lock (_gate)
        {
            var (now, refused) = (clock.GetUtcNow(), _refused.GetValueOrDefault(status));
            var isTold = refused.All == 0 || now - refused.ToldAt >= Quiet;
            _refused[status] = isTold ? new Refused(refused.All + 1, 0, now) : refused with { All = refused.All + 1, Untold = refused.Untold + 1 };
            if (isTold)
            {
                var code = OwnRefusals.CodeOf(status);
                LogRefused(logger, code.Id, refused.Untold + 1, refused.Untold == 0 ? "notice" : "notices", status, code.Title);
            }
        }
    }

    [LoggerMessage(1004, LogLevel.Warning, "{Code}: {Count} {Notices} refused with HTTP {Status} since the last such line: {Title}")]
    private static partial void LogRefused(ILogger logger, string code, long count, string notices, int status, string title);

    private readonly record struct Refused(long All, long Untold, DateTimeOffset ToldAt);
}
