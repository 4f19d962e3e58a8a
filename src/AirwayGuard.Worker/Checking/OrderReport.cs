using System.Collections.Immutable;
using AirwayGuard.Core.Suctioning;
using AirwayGuard.Fhir.Reading;

namespace AirwayGuard.Worker.Checking;

/// <summary>What the judged orders say, with the device requests tied to them: the higher vacuum and the larger catheter count.</summary>
internal static class OrderReport
{
    public static async ValueTask<ImmutableArray<OrderWords>> OfAsync(
        IEnumerable<JudgedOrder> orders, ICheckChart chart, OrderWordsReader reader, IEntityNames names, CancellationToken stop)
    {
        var report = new List<OrderWords>();
        foreach (var order in orders.OrderBy(order => order.AuthoredOn).ThenBy(order => names.NameOf(order.Order), StringComparer.Ordinal))
        {
            OrderWords? words = null;
            foreach (var (row, arrival) in order.Resources.OrderBy(one => one.Row == order.Order ? 0 : 1).ThenBy(one => names.NameOf(one.Row), StringComparer.Ordinal))
            {
                if (await chart.ArrivalAsync(arrival, stop) is { } kept && reader.Read(kept) is { } own)
                {
                    words = words is null ? own : Join(words, own);
                }
            }

            if (words is not null)
            {
                report.Add(words);
            }
        }

        return [.. report];
    }

    private static OrderWords Join(OrderWords order, OrderWords tied)
    {
        var (judged, other) = tied.AllowsMoreThan(order) ? (tied, order) : (order, tied);
        var hasLow = judged.VacuumHigh is null || (other.VacuumHigh is null && other.VacuumUnit == judged.VacuumUnit);
        return JoinRest(order, tied) with
        {
            VacuumLow = judged.VacuumLow ?? (hasLow ? other.VacuumLow : null),
            VacuumHigh = judged.VacuumHigh,
            VacuumExclusive = judged.VacuumExclusive,
            VacuumUnit = judged.VacuumHigh is null && judged.VacuumLow is null ? other.VacuumUnit : judged.VacuumUnit,
        };
    }

    private static OrderWords JoinRest(OrderWords order, OrderWords tied) => order with
    {
        CatheterFr = Larger(order.CatheterFr, tied.CatheterFr),
        EveryHours = order.EveryHours ?? tied.EveryHours,
        ByClock = order.ByClock ?? tied.ByClock,
        AsNeeded = order.AsNeeded ?? tied.AsNeeded,
        Saline = order.Saline ?? tied.Saline,
        System = order.System ?? tied.System,
        Depth = order.Depth ?? tied.Depth,
        Preoxygenate = order.Preoxygenate ?? tied.Preoxygenate,
        DoNotSuction = order.DoNotSuction | tied.DoNotSuction,
        Unread = [.. order.Unread, .. tied.Unread],
    };

    private static decimal? Larger(decimal? one, decimal? other) => one is null ? other : other is null ? one : Math.Max(one.Value, other.Value);
}
