using Serilog.Core;
using Serilog.Events;
using Serilog.Formatting;

namespace AirwayGuard.Host.Service.Logging;

/// <summary>Writes each event as a line, one at a time, at once.</summary>
internal sealed class LineSink(ITextFormatter form, TextWriter output) : ILogEventSink
{
    private readonly Lock _one = new();

    public void Emit(LogEvent logEvent)
    {
        lock (_one)
        {
            form.Format(logEvent, output);
            output.Flush();
        }
    }
}
