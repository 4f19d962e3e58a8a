using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Tests.Sending;

/// <summary>Answers as told, one answer a sending, the last one again and again; remembers what it was given.</summary>
internal sealed class ScriptedSink(params SinkAnswer[] answers) : ISink
{
    public List<(Outgoing Outgoing, ServerVersion? Last)> Given { get; } = [];

    /// <summary>Runs before an answer is given.</summary>
    public Func<ValueTask> Meanwhile { get; set; } = () => ValueTask.CompletedTask;

    /// <summary>Messages of every kind.</summary>
    public bool TakesAll { get; init; }

    public bool Takes(string kind) => TakesAll || kind == "fhir";

    public async ValueTask<SinkAnswer> SendAsync(Outgoing outgoing, ServerVersion? last, DateTimeOffset until, CancellationToken stop)
    {
        Given.Add((outgoing, last));
        await Meanwhile();
        return answers[Math.Min(Given.Count, answers.Length) - 1];
    }

    public static SinkAnswer Confirmed(string version) => new(SendState.Confirmed, new ServerVersion("77", version), false, false, null, null);

    public static SinkAnswer Open(string code, TimeSpan? retryAfter = null) => new(SendState.Unknown, null, false, false, code, retryAfter);

    public static SinkAnswer Refused(string code) => new(SendState.Parked, null, false, false, code, null);
}
