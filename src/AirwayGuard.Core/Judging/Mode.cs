namespace AirwayGuard.Core.Judging;

/// <summary>A silent rule is judged and recorded like a live one, and nothing leaves the service.</summary>
public enum Mode : byte
{
    Live, Silent,
}
