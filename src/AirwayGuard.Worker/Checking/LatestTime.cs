using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Checking;

/// <summary>The time that input is judged at where none is asked for: the latest that any of it carries.</summary>
internal static class LatestTime
{
    // A day of charting that is read a week later is still one input; a month or year that was mistyped lies further away.
    private const long Apart = 7 * TimeSpan.TicksPerDay;

    /// <param name="problems">Told where one resource sets the time alone, since all that would have fallen due by then is judged as missing.</param>
    /// <returns>UTC ticks; null where nothing carries a time.</returns>
    public static long? Of(IEnumerable<ReadArrival> read, IReadOnlyList<CheckInput> inputs, List<Problem> problems)
    {
        var (latest, before) = (long.MinValue, long.MinValue);
        Arrival? setBy = null;
        foreach (var one in read)
        {
            var time = AsOfCut.LatestTime(one.Reading);
            if (time > latest)
            {
                (latest, before, setBy) = (time, latest, one.Arrival);
            }
            else
            {
                before = Math.Max(before, time);
            }
        }

        if (setBy is not null && before > long.MinValue && latest - before > Apart)
        {
            problems.Add(new Problem(Codes.LatestTimeAlone, WhereOf(setBy, inputs), "Its time lies more than 7 days after every other time of the input, and everything was judged as of it."));
        }

        return latest == long.MinValue ? null : latest;
    }

    private static string WhereOf(Arrival arrival, IReadOnlyList<CheckInput> inputs) =>
        arrival is { Type: { Length: > 0 } type, Id: { Length: > 0 } id } ? $"{type}/{id}" : inputs.FirstOrDefault(input => ReferenceEquals(input.Arrival, arrival))?.Where ?? "";
}
