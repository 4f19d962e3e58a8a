using System.Text;

namespace AirwayGuard.Host.Tests.Service;

/// <summary>Tells when a text was written to it.</summary>
internal sealed class WaitingWriter(string text) : TextWriter
{
    private readonly Lock _one = new();
    private readonly StringBuilder _written = new();
    public override Encoding Encoding => Encoding.UTF8;

    public TaskCompletionSource Seen { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);

    public string Written
    {
        get
        {
            lock (_one)
            {
                return _written.ToString();
            }
        }
    }

    public override void Write(char value)
    {
        lock (_one)
        {
            _written.Append(value);
            if (value == '\n' && _written.ToString().Contains(text, StringComparison.Ordinal))
            {
                Seen.TrySetResult();
            }
        }
    }
}
