using System.ComponentModel.DataAnnotations;
using System.Globalization;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>Who may ask at order entry, and what is said of the policy there. Section <c>AirwayGuard:CdsHooks</c>.</summary>
internal sealed class CdsHooksOptions : IValidatableObject
{
    public const string Section = "AirwayGuard:CdsHooks";

    /// <summary>
    /// Our address as callers know it, absolute, http or https; with the path of a call it is the <c>aud</c> that the token must have,
    /// sign by sign. Default the address we listen on.
    /// </summary>
    public Uri? Address { get; set; }

    /// <summary>Who may ask. Default nobody.</summary>
    public IList<CdsClient> Clients { get; } = [];

    /// <summary>Seconds by which a caller's clock may differ from ours, either way. Default 60, range 0 to 300.</summary>
    [Range(0, 300)]
    public int ClockSkewSeconds { get; set; } = 60;

    /// <summary>Requests a second that one caller may send. Default 200, range 1 to 100000.</summary>
    [Range(1, 100_000)]
    public int MostASecond { get; set; } = 200;

    /// <summary>Name of the hospital's policy, shown as the source of a card; 1 to 200 characters. Default none.</summary>
    [StringLength(200, MinimumLength = 1, ErrorMessage = "it takes 1 to 200 characters")]
    public string? PolicyName { get; set; }

    /// <summary>Where that policy can be read, absolute, http or https. Default none.</summary>
    public Uri? PolicyUrl { get; set; }

    /// <inheritdoc />
    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (Address is not null && !HookAddress.IsPlain(Address, allowQuery: false))
        {
            yield return new ValidationResult("it takes an absolute http or https address without query, fragment or user", [nameof(Address)]);
        }

        if (PolicyUrl is not null && !(PolicyUrl.IsAbsoluteUri && PolicyUrl.Scheme is "http" or "https"))
        {
            yield return new ValidationResult("it takes an absolute http or https address", [nameof(PolicyUrl)]);
        }

        var issuers = new HashSet<string>(StringComparer.Ordinal);
        for (var at = 0; at < Clients.Count; at++)
        {
            if (Clients[at].Issuer is { } issuer && !issuers.Add(issuer))
            {
                yield return new ValidationResult(
                    "another client has this issuer", [string.Create(CultureInfo.InvariantCulture, $"{nameof(Clients)}:{at}:{nameof(CdsClient.Issuer)}")]);
            }
        }
    }
}
