using System.Globalization;
using Serilog.Events;
using Serilog.Formatting;

namespace AirwayGuard.Host.Service.Logging;

/// <summary>One line for a person: time (UTC), level, words, and the trace of an exception.</summary>
internal sealed class ReadableLines : ITextFormatter
{
    public void Format(LogEvent logEvent, TextWriter output)
    {
        output.Write(logEvent.Timestamp.UtcDateTime.ToString("HH:mm:ss'Z'", CultureInfo.InvariantCulture));
        output.Write(Level(logEvent.Level));
        LogWords.Write(logEvent, output);
        if (logEvent.Exception is { } exception)
        {
            output.Write(" | ");
            output.Write(ExceptionTrace.Of(exception));
        }

        output.Write('\n');
    }

    private static string Level(LogEventLevel level) => level switch
    {
        LogEventLevel.Fatal => " FTL ",
        LogEventLevel.Error => " ERR ",
        LogEventLevel.Warning => " WRN ",
        LogEventLevel.Information => " INF ",
        _ => " DBG ",
    };
}
