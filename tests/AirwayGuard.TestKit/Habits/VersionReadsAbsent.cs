namespace AirwayGuard.TestKit.Habits;

/// <summary>Neither versions nor the history of a resource can be read.</summary>
/// <param name="status">404 or 405.</param>
public sealed class VersionReadsAbsent(int status) : Habit
{
    protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken) =>
        PathOf(request) is [_, _, "_history", ..] ? Task.FromResult(JsonAnswer.Refuse(request, status, "not-supported")) : PassAsync(request, cancellationToken);
}
