using Microsoft.Extensions.Logging;

namespace AirwayGuard.Worker.Tests;

/// <summary>Keeps what is said in the log, in order.</summary>
internal sealed class Listening<T> : ILogger<T>
{
    public List<(LogLevel Level, string Text)> Said { get; } = [];

    public IDisposable? BeginScope<TState>(TState state)
        where TState : notnull => null;

    public bool IsEnabled(LogLevel logLevel) => true;

    public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
        Said.Add((logLevel, formatter(state, exception)));
}
