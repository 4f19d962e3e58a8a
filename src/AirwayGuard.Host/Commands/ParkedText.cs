using System.Globalization;
using System.Reflection;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Host.Commands;

/// <summary>What is set aside, for a person to read. It never shows what was charted.</summary>
internal static class ParkedText
{
    private static readonly Dictionary<string, DiagnosticCode> ById = typeof(Codes).GetFields(BindingFlags.Public | BindingFlags.Static)
        .Select(field => field.GetValue(null)).OfType<DiagnosticCode>().ToDictionary(code => code.Id, StringComparer.Ordinal);

    public static void List(IReadOnlyList<ParkedEntry> entries, TextWriter into)
    {
        foreach (var entry in entries)
        {
            Plain(into, string.Create(
                CultureInfo.InvariantCulture,
                $"{entry.Number}  {entry.Item.Code}  {What(entry.Item)}  first {Time(entry.First)}, last {Time(entry.Item.At)}  {TitleOf(entry.Item.Code)}"));
        }

        into.WriteLine(entries.Count == 1 ? "1 parked." : string.Create(CultureInfo.InvariantCulture, $"{entries.Count} parked."));
    }

    /// <param name="arrival">Of what could not be read; null where its body was purged, or for a message.</param>
    /// <param name="trail">The audit entries about a message.</param>
    public static void Show(ParkedEntry entry, Arrival? arrival, IReadOnlyList<AuditEntry> trail, TextWriter into)
    {
        Plain(into, string.Create(CultureInfo.InvariantCulture, $"{entry.Number}  {What(entry.Item)}"));
        into.WriteLine($"Code        {entry.Item.Code}  {TitleOf(entry.Item.Code)}");
        into.WriteLine($"First try   {Time(entry.First)}");
        into.WriteLine($"Last try    {Time(entry.Item.At)}");
        Plain(into, $"Where       {Where(entry.Item)}");
        if (arrival is not null)
        {
            Plain(into, $"Arrival     {KnownNames.Type(arrival.Type)}{(arrival.Id is null ? "" : "/" + KnownNames.Id(arrival.Id))}{(arrival.Version is null ? "" : " version " + KnownNames.Id(arrival.Version))}, known {Time(arrival.KnownAt)}");
        }

        foreach (var one in trail)
        {
            Plain(into, string.Create(CultureInfo.InvariantCulture, $"Audit       {Time(one.At)}  {one.What}  (audit entry {one.Number})"));
        }

        into.WriteLine($"To do       {(ById.TryGetValue(entry.Item.Code, out var code) ? code.Advice : "Look the code up in the documents.")}");
        into.WriteLine(entry.Item is { Arrival: null, Outgoing: null, Patient.IsNone: true }
            ? "Nothing is kept of it: it is asked for again with the next sweep. Retry or drop takes it off the list."
            : "Then retry it, or drop it with a reason; the service must be stopped for that.");
    }

    private static string What(ParkedItem item) => item switch
    {
        { Patient.IsNone: false } => $"judging of {Where(item)}",
        { Outgoing: { } key } => $"message {key:D}",
        { Arrival: { } position } => string.Create(CultureInfo.InvariantCulture, $"arrival {position.Value}{(item.Where.Length > 0 ? $" ({Where(item)})" : "")}"),
        _ => $"entry of {item.Where}",
    };

    // Of an arrival it is the type that the resource itself gives; of an entry the question that brought it; of a message its key.
    private static string Where(ParkedItem item) => item switch
    {
        { Where.Length: 0 } => "not known",
        { Patient.IsNone: false } => KnownNames.Reference(item.Where),
        { Arrival: not null } => KnownNames.Type(item.Where),
        _ => item.Where,
    };

    private static string TitleOf(string code) => ById.TryGetValue(code, out var known) ? known.Title : "";

    private static string Time(DateTimeOffset at) => at.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);

    // A name that a server gave may hold anything.
    private static void Plain(TextWriter into, string text) => into.WriteLine(PlainText.Visible(text));
}
