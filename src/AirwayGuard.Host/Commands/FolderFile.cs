namespace AirwayGuard.Host.Commands;

/// <summary>A file met in a folder.</summary>
/// <param name="Label">Its path within the folder.</param>
/// <param name="Refused">Why it is not opened; null for a regular file.</param>
internal sealed record FolderFile(string Label, string Path, string? Refused);
