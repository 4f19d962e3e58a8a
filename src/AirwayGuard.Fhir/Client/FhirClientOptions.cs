using System.ComponentModel.DataAnnotations;
using Microsoft.Extensions.Options;

namespace AirwayGuard.Fhir.Client;

/// <summary>The FHIR server and how it is called. Section <c>AirwayGuard:Fhir</c>.</summary>
public sealed class FhirClientOptions : IValidatableObject
{
    public const string Section = "AirwayGuard:Fhir";

    /// <summary>Base address, https; http only on loopback unless <see cref="AllowPlainHttp"/>.</summary>
    [Required]
    public Uri? BaseUrl { get; set; }

    /// <summary>Other names the server gives itself in links and Location. Default none; their addresses are rewritten to the base.</summary>
    public IList<Uri> Aliases { get; } = [];

    /// <summary>Allows http to other hosts than loopback. Default false.</summary>
    public bool AllowPlainHttp { get; set; }

    /// <summary>Seconds one attempt may take, with its body. Default 10, range 1 to 120.</summary>
    [Range(1, 120)]
    public int AttemptTimeoutSeconds { get; set; } = 10;

    /// <summary>Attempts after the first for what may be repeated. Default 2, range 0 to 10.</summary>
    [Range(0, 10)]
    public int Retries { get; set; } = 2;

    /// <summary>Milliseconds before the first retry; doubled each time, with jitter. Default 200, range 10 to 10 000.</summary>
    [Range(10, 10_000)]
    public int RetryDelayMilliseconds { get; set; } = 200;

    /// <summary>Longest Retry-After, in seconds, that is waited for inside a call; a longer one is handed to the caller. Default 5, range 0 to 60.</summary>
    [Range(0, 60)]
    public int LongestInlineWaitSeconds { get; set; } = 5;

    /// <summary>Share of failed attempts that opens the circuit. Default 0.5, range 0.1 to 1.</summary>
    [Range(0.1, 1.0)]
    public double BreakerFailureRatio { get; set; } = 0.5;

    /// <summary>Attempts within the sampling time before the circuit may open. Default 20, range 2 to 1000.</summary>
    [Range(2, 1000)]
    public int BreakerMinimumAttempts { get; set; } = 20;

    /// <summary>Seconds over which attempts are counted. Default 30, range 1 to 600.</summary>
    [Range(1, 600)]
    public int BreakerSamplingSeconds { get; set; } = 30;

    /// <summary>Seconds the circuit stays open. Default 15, range 1 to 600.</summary>
    [Range(1, 600)]
    public int BreakerOpenSeconds { get; set; } = 15;

    /// <summary>Largest body taken, in megabytes (10⁶ bytes). Default 50, range 1 to 1000.</summary>
    [Range(1, 1000)]
    public int MaxAnswerMegabytes { get; set; } = 50;

    /// <inheritdoc />
    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        foreach (var (address, name) in Aliases.Select(alias => (alias, nameof(Aliases))).Prepend((BaseUrl!, nameof(BaseUrl))))
        {
            if (address is null || !address.IsAbsoluteUri || address.Scheme is not ("http" or "https")
                || address.Query.Length > 0 || address.Fragment.Length > 0 || address.UserInfo.Length > 0)
            {
                yield return new ValidationResult("Give an absolute http or https address without query, fragment or user.", [name]);
            }
            else if (name == nameof(BaseUrl) && address.Scheme == "http" && !address.IsLoopback && !AllowPlainHttp)
            {
                yield return new ValidationResult("Plain http to another machine shows patient data and tokens to the network; use https, or set AllowPlainHttp.", [name]);
            }
        }
    }
}

/// <summary>Checks <see cref="FhirClientOptions"/> before the first call.</summary>
[OptionsValidator]
internal sealed partial class FhirClientOptionsValidator : IValidateOptions<FhirClientOptions>;
