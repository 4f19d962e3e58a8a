using System.Globalization;

namespace AirwayGuard.Worker.Backlog;

/// <summary>A backlog in words, without anything charted.</summary>
public static class BacklogWords
{
    /// <summary>E.g. <c>8 h 2 min behind, 14 charts wait to be judged; caught up in about 4 min</c>.</summary>
    public static string Of(BacklogState backlog) => string.Create(
        CultureInfo.InvariantCulture,
        $"{(backlog.Behind is { } behind ? Length(behind) : "an unknown time")} behind, {backlog.PatientsWaiting} {(backlog.PatientsWaiting == 1 ? "chart waits" : "charts wait")} to be judged; {Remaining(backlog)}");

    private static string Remaining(BacklogState backlog) => backlog.Remaining is not { } remaining ? "how long catching up takes is not known yet"
        : $"caught up in {(backlog.IsAtLeast ? "at least" : "about")} {Length(remaining)}";

    private static string Length(TimeSpan time) => string.Create(
        CultureInfo.InvariantCulture,
        $"{(time.TotalMinutes < 2 ? $"{Math.Ceiling(time.TotalSeconds)} s" : time.TotalHours < 2 ? $"{Math.Ceiling(time.TotalMinutes)} min" : time.TotalDays < 2 ? $"{(long)time.TotalHours} h {time.Minutes} min" : $"{(long)time.TotalDays} d {time.Hours} h")}");
}
