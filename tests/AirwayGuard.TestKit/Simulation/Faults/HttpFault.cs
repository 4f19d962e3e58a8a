namespace AirwayGuard.TestKit.Simulation;

/// <summary>One way in which a call to the server goes wrong.</summary>
/// <param name="name">As the schedule prints it.</param>
internal abstract class HttpFault(string name) : Fate(name)
{
    /// <summary>Whether it can happen to this request at all.</summary>
    public virtual bool Suits(HttpRequestMessage request) => true;

    /// <summary>What it is in its details, this time.</summary>
    public virtual HttpFault Draw(Schedule schedule) => this;

    /// <param name="server">Does what is asked.</param>
    /// <param name="timeIsOver">The attempt is given up.</param>
    public abstract Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, Func<Task<HttpResponseMessage>> server, CancellationToken timeIsOver);

    /// <summary>No answer, until the attempt's time is over.</summary>
    protected static async Task<HttpResponseMessage> NoAnswerAsync(CancellationToken timeIsOver)
    {
        // Whoever waits goes on inline when the attempt's time is over, on the schedule's thread.
        var answer = new PendingCall("answer", request: null);
        _ = timeIsOver.UnsafeRegister(_ => answer.Decided(Proceed), null);
        await answer;
        throw new OperationCanceledException(timeIsOver);
    }
}
