namespace AirwayGuard.Sandbox;

/// <summary>How much of a resource's content is checked before it is stored.</summary>
public enum SandboxValidation
{
    /// <summary>Unknown elements, missing mandatory elements, unknown required codes and malformed values are refused with 400.</summary>
    Strict,

    /// <summary>Any JSON object that names a known resource type is stored, as some servers do.</summary>
    Lenient,
}
