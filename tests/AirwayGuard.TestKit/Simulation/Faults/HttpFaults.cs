namespace AirwayGuard.TestKit.Simulation;

/// <summary>Every way in which a call goes wrong.</summary>
internal static class HttpFaults
{
    public static readonly IReadOnlyList<HttpFault> All =
    [
        new LostRequest(), new LostAnswer(), new StatusFault(500), new StatusFault(500, isDone: true), new StatusFault(429, retryAfter: 3), new StatusFault(429),
        new StatusFault(401), new StatusFault(409), new StatusFault(412), new LoginPage(), new TruncatedAnswer(), new HalfPage(), new MissingNext(), new WrongNext(),
        new RacedCreate(),
    ];
}
