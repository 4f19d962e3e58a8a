using System.Globalization;

namespace AirwayGuard.TestKit.Kills;

/// <summary>When a life of the service is to end.</summary>
/// <param name="Requests">At this many requests of the service's since its start; zero: by time alone, in its start.</param>
/// <param name="IsWrite">Only requests that write findings count.</param>
/// <param name="Then">Time that goes by after that, or after the start.</param>
internal sealed record Moment(int Requests, bool IsWrite, TimeSpan Then)
{
    /// <summary>
    /// Some in the start, before it asks anything; the others while it sweeps, or while it sends. The time afterwards puts the end
    /// before or after the answer, into judging and into commits.
    /// </summary>
    public static Moment Draw(Random random) => random.Next(100) switch
    {
        < 12 => new Moment(0, false, TimeSpan.FromMilliseconds(random.Next(200, 1_800))),
        < 50 => new Moment(1 + random.Next(60), false, TimeSpan.FromMilliseconds(random.Next(80))),
        _ => new Moment(1 + random.Next(8), true, TimeSpan.FromMilliseconds(random.Next(40))),
    };

    /// <summary>Whether a request counts.</summary>
    public bool Counts(string method, string type) => !IsWrite || (method != "GET" && type is ("DetectedIssue" or "Flag" or "Provenance"));

    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture, $"{(Requests == 0 ? "start" : $"{(IsWrite ? "write" : "request")} {Requests}")} and {Then.TotalMilliseconds:F0} ms");
}
