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
            List<OrderWords>? parts = null;
            foreach (var (row, arrival) in order.Resources.OrderBy(one => one.Row == order.Order ? 0 : 1).ThenBy(one => names.NameOf(one.Row), StringComparer.Ordinal))
            {
                if (await chart.ArrivalAsync(arrival, stop) is { } kept && reader.Read(kept) is [.., _] own)
                {
                    parts = parts is null ? [.. own] : [parts[0].With(own[0]), .. parts.Skip(1), .. own.Skip(1)];
                }
            }

            report.AddRange((parts ?? []).Select((part, index) => part with { Order = parts![0].Order, Part = index + 1 }));
        }

        return [.. report];
    }
}
