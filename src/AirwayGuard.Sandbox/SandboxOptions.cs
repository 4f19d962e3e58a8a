using System.ComponentModel.DataAnnotations;

namespace AirwayGuard.Sandbox;

/// <summary>Where the sandbox keeps its data and what its doors let in.</summary>
public sealed class SandboxOptions
{
    /// <summary>Folder that holds the one database file; made when missing. No default.</summary>
    [Required] public string Folder { get; set; } = "";

    /// <summary>How strictly content is checked. Default <see cref="SandboxValidation.Strict"/>.</summary>
    public SandboxValidation Validation { get; set; } = SandboxValidation.Strict;

    /// <summary>Largest request body in bytes, bundles posted to the base excepted. Default 2 MB.</summary>
    [Range(1024, 64 * 1024 * 1024)] public int MaxBodyBytes { get; set; } = 2 * 1024 * 1024;

    /// <summary>Largest transaction or batch in bytes. Default 64 MB.</summary>
    [Range(1024, 256 * 1024 * 1024)] public int MaxBundleBytes { get; set; } = 64 * 1024 * 1024;

    /// <summary>Largest resource inside a transaction or batch in bytes. Default 5 MB.</summary>
    [Range(1024, 64 * 1024 * 1024)] public int MaxEntryBytes { get; set; } = 5 * 1024 * 1024;

    /// <summary>Deepest nesting of JSON, in levels. Default 64.</summary>
    [Range(8, 256)] public int MaxJsonDepth { get; set; } = 64;

    /// <summary>Matches on a page when the client names no <c>_count</c>. Default 50.</summary>
    [Range(1, 10_000)] public int DefaultPageSize { get; set; } = 50;

    /// <summary>Most matches on a page whatever the client asks. Default 1,000.</summary>
    [Range(1, 10_000)] public int MaxPageSize { get; set; } = 1_000;

    /// <summary>Result sets kept for their <c>next</c> links; the oldest goes first. Default 256.</summary>
    [Range(1, 10_000)] public int KeptResultSets { get; set; } = 256;

    /// <summary>Stamps follow the clock also where it is set back, as on servers that do not guard against it. Default false.</summary>
    public bool StampsGoBack { get; set; }

    /// <summary>A write is answered once it is on the disk. Without it an ended process still loses nothing, a cut of power does: for tests only.</summary>
    internal bool WaitsForDisk { get; set; } = true;

    /// <summary>Names and addresses accepted in the Host header, without port. Default the loopback ones.</summary>
    public IList<string> AllowedHosts { get; } = ["localhost", "127.0.0.1", "[::1]"];

    /// <summary>Code and advice for a kind of fault, put into the answers; null (default) for none.</summary>
    public Func<SandboxFault, SandboxWords>? WordsOf { get; set; }

    /// <summary>Tries of one notification before its Subscription becomes <c>error</c>. Default 4.</summary>
    [Range(1, 20)] public int MaxDeliveryAttempts { get; set; } = 4;

    /// <summary>Wait before the second try of a notification; doubled for every further one. Default 1 s.</summary>
    public TimeSpan DeliveryRetryDelay { get; set; } = TimeSpan.FromSeconds(1);

    /// <summary>Longest wait for an endpoint's answer. Default 10 s.</summary>
    public TimeSpan DeliveryTimeout { get; set; } = TimeSpan.FromSeconds(10);
}
