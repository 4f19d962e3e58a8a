using System.ComponentModel.DataAnnotations;
using AirwayGuard.Fhir.Client;
using Microsoft.Extensions.Options;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>What is written beside findings. Section <c>AirwayGuard:WriteBack</c>.</summary>
public sealed class FhirSinkOptions : IValidatableObject
{
    public const string Section = "AirwayGuard:WriteBack";

    /// <summary><c>Organization/id</c> on whose behalf is written and that owns the author Device. Default none.</summary>
    public string? Organization { get; set; }

    /// <summary>Writes a Provenance for each version. Default true; false for servers that do not take Provenance.</summary>
    public bool WriteProvenance { get; set; } = true;

    /// <summary>Searches before each first write, for servers that do not honour If-None-Exist. Default false.</summary>
    public bool SearchBeforeCreate { get; set; }

    /// <inheritdoc />
    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (Organization is not null && ResourceAddress.FromPath(Organization) is not { Type: "Organization", Version: null })
        {
            yield return new ValidationResult("Give Organization/id.", [nameof(Organization)]);
        }
    }
}

/// <summary>Checks <see cref="FhirSinkOptions"/> before the first message.</summary>
[OptionsValidator]
internal sealed partial class FhirSinkOptionsValidator : IValidateOptions<FhirSinkOptions>;
