namespace AirwayGuard.TestKit.Kills;

/// <summary>What the service is about when it is ended.</summary>
internal enum MomentKind
{
    /// <summary>By time alone, mostly before it asks anything.</summary>
    InStart,

    /// <summary>A request of any kind: sweeps, most of all.</summary>
    Asking,

    /// <summary>A request that writes a finding or its Provenance.</summary>
    Writing,

    /// <summary>Once everything was asked for.</summary>
    Ready,
}
