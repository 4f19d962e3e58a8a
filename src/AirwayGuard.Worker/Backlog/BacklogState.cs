namespace AirwayGuard.Worker.Backlog;

/// <summary>How far behind the service is, and about how long it takes to catch up.</summary>
/// <param name="Behind">Age of the oldest change that may not have been read yet, or was read and not judged; by the server's clock. Null where not everything was ever asked for, and what is known of is not old.</param>
/// <param name="IsBehind">More than an ordinary round of asking and judging comes to.</param>
/// <param name="PatientsWaiting">Charts that wait to be judged.</param>
/// <param name="Pending">Messages that wait to be sent.</param>
/// <param name="Remaining">By the paces measured so far; null as long as these are not known, or the server does not answer. Zero where nothing is left to do.</param>
/// <param name="IsAtLeast">Some questions are yet to be asked, and nobody knows what they bring: it takes that long or longer.</param>
public sealed record BacklogState(TimeSpan? Behind, bool IsBehind, long PatientsWaiting, long Pending, TimeSpan? Remaining, bool IsAtLeast);
