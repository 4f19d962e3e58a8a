using System.ComponentModel.DataAnnotations;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>One system that may ask: who issues its tokens, and where its public keys are.</summary>
internal sealed class CdsClient : IValidatableObject
{
    /// <summary>The <c>iss</c> of its tokens, exactly, 1 to 1000 characters. Required.</summary>
    [Required(AllowEmptyStrings = false, ErrorMessage = "it takes the iss of the client's tokens, exactly")]
    [StringLength(1000, ErrorMessage = "it takes 1 to 1000 characters")]
    public string? Issuer { get; set; }

    /// <summary>
    /// Address of its JWKS, and the only <c>jku</c> its tokens may name: absolute and https, http on loopback only. Default none, which
    /// takes a <see cref="KeyFile"/>.
    /// </summary>
    public Uri? KeySet { get; set; }

    /// <summary>A file with its JWKS, read again when it was written anew. With it nothing is fetched. Default none.</summary>
    public string? KeyFile { get; set; }

    /// <inheritdoc />
    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (KeySet is null && string.IsNullOrWhiteSpace(KeyFile))
        {
            yield return new ValidationResult("it takes the address of the client's JWKS, or KeyFile a file of it", [nameof(KeySet)]);
        }

        if (KeySet is not null && !(HookAddress.IsPlain(KeySet, allowQuery: true) && (KeySet.Scheme == "https" || KeySet.IsLoopback)))
        {
            yield return new ValidationResult("it takes an absolute https address without fragment or user; http on loopback only", [nameof(KeySet)]);
        }
    }
}
