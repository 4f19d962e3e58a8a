using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Suctioning;

/// <summary>
/// Sessions: passes each starting at most five minutes after the one before ended (started, if no end is charted), or sharing
/// a parent Procedure. A pass of which nobody can tell what it served is a session of its own.
/// </summary>
internal static class SessionBuilder
{
    public static void Build(in Timeline timeline, Care care)
    {
        var passes = care.PassList;
        var session = PassWork.Filled(care.SessionOfPass, passes.Count, -1);
        var (count, before) = (0, -1);
        var byParent = care.SessionOfParent;
        byParent.Clear();
        for (var i = 0; i < passes.Count; i++)
        {
            var pass = passes[i];
            var own = -1;
            if (pass.UseUnknown)
            {
                session[i] = count++;
                continue;
            }

            if (before >= 0 && pass.From - (passes[before].HasEnd ? passes[before].To : passes[before].From) <= CareTimes.SessionGap)
            {
                own = session[before];
            }

            if (!pass.Parent.IsNone && byParent.TryGetValue(pass.Parent, out var shared))
            {
                own = own < 0 ? shared : Merge(session, i, own, shared);
            }

            session[i] = own < 0 ? count++ : own;
            before = i;
            if (!pass.Parent.IsNone)
            {
                byParent[pass.Parent] = session[i];
            }
        }

        for (var s = 0; s < count; s++)
        {
            Add(care, session, s);
        }

        care.SessionList.Sort(static (x, y) => x.From.CompareTo(y.From));
        for (var s = 0; s < care.SessionList.Count; s++)
        {
            var span = care.SessionList[s];
            for (var p = 0; p < span.PassCount; p++)
            {
                var index = care.PassesBySessionList[span.FirstPass + p];
                passes[index] = passes[index] with { Session = s };
            }
        }
    }

    private static int Merge(Span<int> session, int until, int keep, int drop)
    {
        for (var i = 0; i < until; i++)
        {
            session[i] = session[i] == drop ? keep : session[i];
        }

        return keep;
    }

    private static void Add(Care care, ReadOnlySpan<int> session, int number)
    {
        var first = care.PassesBySessionList.Count;
        long end = long.MinValue;
        for (var i = 0; i < session.Length; i++)
        {
            if (session[i] == number)
            {
                care.PassesBySessionList.Add(i);
                end = Math.Max(end, care.PassList[i].HasEnd ? care.PassList[i].To : care.PassList[i].From);
            }
        }

        if (care.PassesBySessionList.Count > first)
        {
            var start = care.PassList[care.PassesBySessionList[first]];
            care.SessionList.Add(new SessionSpan(start.Identity, start.From, end, start.OffsetMinutes, first, care.PassesBySessionList.Count - first, start.UseUnknown));
        }
    }
}
