using System.Globalization;
using AirwayGuard.Core.Orders;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Tests.Orders;

/// <summary>What was read from an order's text, in one line for a test's table.</summary>
internal static class InWords
{
    public static readonly string[] Fields =
    [
        "vacuumLow", "vacuumHigh", "vacuumExclusive", "vacuumUnit", "catheterFr", "everyHours", "byClock", "asNeeded", "saline", "system", "depth", "preoxygenate", "doNotSuction",
    ];

    /// <summary>One field, as the labels write it; null where the order does not say.</summary>
    public static string? Of(OrderPart part, string field) => field switch
    {
        "vacuumLow" => Number(part.VacuumLow),
        "vacuumHigh" => Number(part.VacuumHigh),
        "vacuumExclusive" => part.VacuumHigh is null && part.VacuumLow is null ? null : Truth(part.VacuumExclusive),
        "vacuumUnit" => part.VacuumUnit == Unit.None ? null : Units.Ucum(part.VacuumUnit),
        "catheterFr" => Number(part.CatheterFr),
        "everyHours" => Number(part.EveryHours),
        "byClock" => Truth(part.ByClock),
        "asNeeded" => Truth(part.AsNeeded),
        "saline" => Truth(part.Saline),
        "system" => part.System,
        "depth" => part.DepthCentimetres is { } depth ? Number(depth) + " cm" : part.DepthWord,
        "preoxygenate" => Truth(part.Preoxygenate),
        _ => Truth(part.DoNotSuction),
    };

    /// <summary>Every field that says something, then what was left unread in brackets; orders of one text stand apart by two bars.</summary>
    public static string Of(string text, OrderText read) => string.Join(" || ", read.Parts.Select(part => Of(text, part)));

    private static string Of(string text, OrderPart part)
    {
        var said = Fields.Where(field => Of(part, field) is { } value && !(value == "false" && field is "vacuumExclusive" or "doNotSuction"))
            .Select(field => $"{field}={Of(part, field)}");
        var mode = part.Mode is { } asked ? [$"mode={asked}"] : Array.Empty<string>();
        var unread = part.Unread.Select(span => $"[{text.Substring(span.Start, span.Length)}]");
        return string.Join(' ', said.Concat(mode).Concat(unread));
    }

    private static string? Truth(bool? says) => says is null ? null : says.Value ? "true" : "false";

    private static string? Number(decimal? number) => number?.ToString("0.######", CultureInfo.InvariantCulture);
}
