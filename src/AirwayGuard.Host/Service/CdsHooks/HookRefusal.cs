using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>Why a call is turned away.</summary>
/// <param name="Status">HTTP status, 400 to 599.</param>
/// <param name="Where">The place in the request, such as <c>Authorization: aud</c>; never a value from it.</param>
/// <param name="Why">A sentence of ours without what the caller sent.</param>
/// <param name="RetryAfterSeconds">Seconds to wait before the next call; null says nothing about it.</param>
internal sealed record HookRefusal(int Status, DiagnosticCode Code, string Where, string Why, int? RetryAfterSeconds = null);
