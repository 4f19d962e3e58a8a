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
            .WriteTo.Sink(new LineSink(FormOf(form), output));
    }

    public static ITextFormatter FormOf(string form) => form == "compact" ? new CompactLines() : new ReadableLines();
}
