using System.Globalization;

namespace AirwayGuard.TestKit.Kills;

/// <summary>When a life of the service is to end.</summary>
/// <param name="Requests">At this many requests of its kind since the start.</param>
/// <param name="Then">Time that goes by after that.</param>
internal sealed record Moment(MomentKind Kind, int Requests, TimeSpan Then)
{
    /// <summary>The end of the first sweep: before it nothing is judged, so one life at least must see it.</summary>
    public static readonly Moment FirstSweep = new(MomentKind.Ready, 0, TimeSpan.Zero);

    /// <summary>The time afterwards puts the end before or after the answer, into judging and into commits.</summary>
    public static Moment Draw(Random random) => random.Next(100) switch
    {
        < 12 => new Moment(MomentKind.InStart, 0, TimeSpan.FromMilliseconds(random.Next(200, 1_800))),
        < 50 => new Moment(MomentKind.Asking, 1 + random.Next(60), TimeSpan.FromMilliseconds(random.Next(80))),
        _ => new Moment(MomentKind.Writing, 1 + random.Next(8), TimeSpan.FromMilliseconds(random.Next(40))),
    };

    /// <summary>Whether a request counts.</summary>
    public bool Counts(string method, string type) =>
        Kind != MomentKind.Writing || (method != "GET" && type is ("DetectedIssue" or "Flag" or "Provenance"));

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Kind} {Requests}, {Then.TotalMilliseconds:F0} ms");
}
