using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Serilog.Events;
using Serilog.Formatting;

namespace AirwayGuard.Host.Service.Logging;

/// <summary>One JSON object a line for a machine: the same words as the readable line, category, number, and the values by name.</summary>
internal sealed class CompactLines : ITextFormatter
{
    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public void Format(LogEvent logEvent, TextWriter output)
    {
        var buffer = new ArrayBufferWriter<byte>(512);
        using (var json = new Utf8JsonWriter(buffer, Options))
        {
            Write(logEvent, json);
        }

        output.Write(Encoding.UTF8.GetString(buffer.WrittenSpan));
        output.Write('\n');
    }

    private static void Write(LogEvent entry, Utf8JsonWriter json)
    {
        using var words = new StringWriter(CultureInfo.InvariantCulture);
        LogWords.Write(entry, words);
        json.WriteStartObject();
        json.WriteString("time", entry.Timestamp.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture));
        json.WriteString("level", entry.Level.ToString());
        json.WriteString("message", words.ToString());
        json.WriteString("category", LogWords.Category(entry));
        if (LogWords.Number(entry) is { } number)
        {
            json.WriteNumber("event", number);
        }

        json.WriteStartObject("values");
        foreach (var (name, value) in LogWords.Values(entry))
        {
            json.WriteString(name, LogWords.Plain(value));
        }

        json.WriteEndObject();
        if (entry.Exception is { } exception)
        {
            json.WriteString("exception", ExceptionTrace.Of(exception));
        }

        json.WriteEndObject();
    }
}
