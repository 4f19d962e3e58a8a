namespace AirwayGuard.Sandbox;

/// <summary>What a write did: the version now current, and whether the resource was made (201) or was there (200).</summary>
/// <param name="Version">The current version; for a conditional create that found one, that one.</param>
/// <param name="Created">Whether the resource did not exist before.</param>
/// <param name="Written">Whether a version was appended.</param>
public sealed record WriteResult(StoredVersion Version, bool Created, bool Written);
