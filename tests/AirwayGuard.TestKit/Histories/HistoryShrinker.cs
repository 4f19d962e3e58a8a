namespace AirwayGuard.TestKit.Histories;

/// <summary>Takes parts away from a failing history for as long as it still fails, so that what is left can be read.</summary>
public static class HistoryShrinker
{
    public static History Shrink(History failing, Func<History, bool> stillFails)
    {
        while (Smaller(failing).FirstOrDefault(stillFails) is { } smaller)
        {
            failing = smaller;
        }

        return failing;
    }

    private static IEnumerable<History> Smaller(History h) =>
    [
        .. h.Rows.Select(r => h with { Rows = h.Rows.Remove(r) }),
        .. h.Rows.Where(r => !r.Components.IsEmpty).Select(r => h with { Rows = h.Rows.Replace(r, r with { Components = [] }) }),
        .. h.Acts.Select(a => h with { Acts = h.Acts.Remove(a) }),
        .. h.Orders.Select(o => h with { Orders = h.Orders.Remove(o) }),
        .. h.Uses.Select(u => h with { Uses = h.Uses.Remove(u) }),
    ];
}
