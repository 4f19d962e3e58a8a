using Serilog;
using Serilog.Events;
using Serilog.Formatting;

namespace AirwayGuard.Host.Service.Logging;

/// <summary>What is logged, and how it is printed: two forms that hold the same.</summary>
internal static class LogSetup
{
    /// <summary>
    /// Everything of ours from Information; of the libraries what is wrong only. Their lines about single requests and attempts are
    /// below that, and would name addresses; what becomes of an attempt, whoever made it tells with a code.
    /// </summary>
    public static void Configure(LoggerConfiguration log, string form, TextWriter output)
    {
        log.MinimumLevel.Information()
            .MinimumLevel.Override("Microsoft", LogEventLevel.Warning)
            .MinimumLevel.Override("System", LogEventLevel.Warning)
            .MinimumLevel.Override("Polly", LogEventLevel.Fatal)
            .Filter.ByExcluding(IsFailedStart)
            .WriteTo.Sink(new LineSink(FormOf(form), output));
    }

    // A start that fails is told with a code by who started; the library's line before it is its stack.
    private static bool IsFailedStart(LogEvent line) => line.MessageTemplate.Text == "Hosting failed to start";

    public static ITextFormatter FormOf(string form) => form == "compact" ? new CompactLines() : new ReadableLines();
}
