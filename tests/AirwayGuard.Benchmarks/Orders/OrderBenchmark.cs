using AirwayGuard.Benchmarks.Harness;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Orders;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Rules;
using Hl7.Fhir.Serialization;

namespace AirwayGuard.Benchmarks.Orders;

/// <summary>Orders in words: reading the text beside cutting it at blanks, the resource beside the SDK's parse of it, and judging a thousand again.</summary>
internal sealed class OrderBenchmark : IBenchmark
{
    public string Name => "orders";

    public async Task RunAsync(RunOptions options, ResultTable table)
    {
        var texts = OpenOrders.Written;
        var standings = await new Contest()
            .Add("words cut at blanks (baseline)", () => texts.Sum(text => text.Split(' ').Length > 0 ? 1L : 0L))
            .Add("OrderTextReader", () => texts.Sum(text => OrderTextReader.Read(text).Parts.Count > 0 ? 1L : 0L))
            .RunAsync(options.Rounds);
        table.Add($"text of an order, {texts.Average(text => text.Length):N0} characters", "order", standings);

        var resources = OpenOrders.Resources;
        var (reader, reading, entities) = (new FhirArrivalReader(ShippedMaps.WithDemoRows), new Reading(), new EntityTable());
        standings = await new Contest()
            .Add("FhirJsonDeserializer.RECOVERABLE (baseline)", () => Parse(resources))
            .Add("FhirArrivalReader, its text with it", () => Read(reader, resources, entities, reading))
            .RunAsync(options.Rounds);
        table.Add($"order as a resource, {resources.Average(one => one.Body.Length):N0} B", "order", standings);

        var orders = new OpenOrders();
        var (strict, guideline) = (ShippedRuleSets.Load("strict-ranges").RuleSet!, ShippedRuleSets.Load("guideline-2022").RuleSet!);
        standings = await new Contest()
            .Add("judging them (baseline)", () => orders.Judge(strict))
            .Add("after the limits changed", () => orders.Judge(guideline))
            .RunAsync(options.Rounds);
        table.Add($"{OpenOrders.Count:N0} open orders", "order", standings);

        orders.ChangeTubes();
        standings = await new Contest()
            .Add("judging them by other limits (baseline)", () => orders.Judge(guideline))
            .Add("after every tube was exchanged", () => orders.Judge(strict))
            .RunAsync(options.Rounds);
        table.Add($"{OpenOrders.Count:N0} open orders, tubes exchanged", "order", standings);
    }

    private static long Read(FhirArrivalReader reader, Arrival[] orders, EntityTable entities, Reading reading)
    {
        foreach (var order in orders)
        {
            reader.Read(order, entities, reading);
        }

        return orders.Length;
    }

    private static long Parse(Arrival[] orders)
    {
        var read = 0L;
        foreach (var order in orders)
        {
            var bytes = new System.Text.Json.Utf8JsonReader(order.Body.Span);
            read += FhirJsonDeserializer.RECOVERABLE.TryDeserializeResource(ref bytes, out _, out _) ? 1 : 0;
        }

        return read;
    }
}
