namespace AirwayGuard.Core.Judging;

/// <summary>R4's required codes for DetectedIssue.severity.</summary>
public enum Severity : byte
{
    Low, Moderate, High,
}
