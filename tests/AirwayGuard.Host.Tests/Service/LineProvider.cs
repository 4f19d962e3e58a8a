using Microsoft.Extensions.Logging;

namespace AirwayGuard.Host.Tests.Service;

/// <summary>Writes what is said in the log, a line each, without level or place.</summary>
internal sealed class LineProvider(StringWriter into) : ILoggerProvider, ILogger
{
    public ILogger CreateLogger(string categoryName) => this;

    public IDisposable? BeginScope<TState>(TState state)
        where TState : notnull => null;

    public bool IsEnabled(LogLevel logLevel) => true;

    public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) => into.Write(formatter(state, exception) + "\n");

    public void Dispose()
    {
    }
}
