using System.Globalization;
using Serilog.Events;
using Serilog.Parsing;

namespace AirwayGuard.Host.Service.Logging;

/// <summary>
/// The words of a log event that may be printed. Our own events are written without charted content and are printed whole. Of
/// anybody else's only the fixed words are, with numbers, truths and lengths of time filled in: their texts may be an address with
/// a search in it, or the message of an exception.
/// </summary>
internal static class LogWords
{
    private const string Ours = "AirwayGuard.";

    public static string Category(LogEvent entry) =>
        entry.Properties.TryGetValue("SourceContext", out var context) && context is ScalarValue { Value: string name } ? name : "";

    /// <summary>Number of the event; null where it has none.</summary>
    public static int? Number(LogEvent entry) =>
        entry.Properties.TryGetValue("EventId", out var id) && id is StructureValue structure
        && structure.Properties.FirstOrDefault(member => member.Name == "Id")?.Value is ScalarValue { Value: int number } && number != 0
            ? number
            : null;

    public static void Write(LogEvent entry, TextWriter output)
    {
        var isOurs = IsOurs(entry);
        foreach (var token in entry.MessageTemplate.Tokens)
        {
            output.Write(token is PropertyToken property && entry.Properties.TryGetValue(property.PropertyName, out var value) && (isOurs || IsHarmless(value))
                ? Plain(value)
                : token.ToString());
        }
    }

    /// <summary>Values of the event's own words, which a machine may want by name.</summary>
    public static IEnumerable<(string Name, LogEventPropertyValue Value)> Values(LogEvent entry)
    {
        var isOurs = IsOurs(entry);
        foreach (var property in entry.MessageTemplate.Tokens.OfType<PropertyToken>().DistinctBy(token => token.PropertyName, StringComparer.Ordinal))
        {
            if (entry.Properties.TryGetValue(property.PropertyName, out var value) && (isOurs || IsHarmless(value)))
            {
                yield return (property.PropertyName, value);
            }
        }
    }

    public static string Plain(LogEventPropertyValue value) => value switch
    {
        ScalarValue { Value: null } => "null",
        ScalarValue { Value: IFormattable number } => number.ToString(null, CultureInfo.InvariantCulture),
        ScalarValue { Value: var text } => text.ToString() ?? "",
        _ => value.GetType().Name,
    };

    private static bool IsOurs(LogEvent entry) => Category(entry).StartsWith(Ours, StringComparison.Ordinal);

    private static bool IsHarmless(LogEventPropertyValue value) =>
        value is ScalarValue { Value: bool or byte or short or ushort or int or uint or long or ulong or double or float or decimal or TimeSpan };
}
