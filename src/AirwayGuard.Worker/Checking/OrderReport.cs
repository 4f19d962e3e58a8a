using System.Collections.Immutable;
using AirwayGuard.Core.Ports;
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
            var arrivals = new List<Arrival>();
            foreach (var (_, position) in order.Resources.OrderBy(one => one.Row == order.Order ? 0 : 1).ThenBy(one => names.NameOf(one.Row), StringComparer.Ordinal))
            {
                if (await chart.ArrivalAsync(position, stop) is { } kept)
                {
                    arrivals.Add(kept);
                }
            }

            report.AddRange(reader.Read(arrivals));
        }

        return [.. report];
    }
}
