using System.ComponentModel.DataAnnotations;

namespace AirwayGuard.Host.Service;

/// <summary>What the service is told besides what each room is told. Section <c>AirwayGuard</c>.</summary>
internal sealed class ServiceOptions : IValidatableObject
{
    public const string Section = "AirwayGuard";

    /// <summary>Folder of the ledger. Needed with a server of your own; the demo has a folder of its own for each port.</summary>
    public string? DataDirectory { get; set; }

    /// <summary>
    /// <c>silent</c>: judged and recorded, nothing leaves, whatever was signed off. Without it what a named person promoted leaves, and on a
    /// server of your own nothing was at first. <c>live</c> there promotes the rule set that the settings name, in the name of the account that
    /// runs the service, until a person signs off by name.
    /// </summary>
    [AllowedValues("silent", "live", null, ErrorMessage = "it takes silent or live")]
    public string? Mode { get; set; }

    /// <summary>A shipped rule set or a file. Default strict-ranges.</summary>
    public string Rules { get; set; } = DefaultRules;

    /// <summary>Files of a site's ConceptMaps, besides the standard codes.</summary>
    public IList<string> Maps { get; } = [];

    /// <summary>Version of the site's configuration, for the author Device. Default 1.</summary>
    public string SiteVersion { get; set; } = "1";

    /// <summary>What to do where the age is not known: <c>cannot-tell</c> (default) or <c>strictest-band</c>.</summary>
    [AllowedValues("cannot-tell", "strictest-band", ErrorMessage = "it takes cannot-tell or strictest-band")]
    public string UnknownAge { get; set; } = "cannot-tell";

    /// <summary>Minutes after which what becomes known counts as late. Default 120, range 1 to 10080.</summary>
    [Range(1, 10_080)]
    public int LateAfterMinutes { get; set; } = 120;

    /// <summary>
    /// Hours for which a pass, session or reading is new: what happened longer ago is recorded with its DetectedIssue and raises no
    /// new Flag. Default no bound; range 1 to 87600.
    /// </summary>
    [Range(1, 87_600)]
    public int? NewForHours { get; set; }

    /// <summary>Answers on other addresses than loopback, without sign-in. Default false: the process refuses to start there.</summary>
    public bool AllowOtherAddresses { get; set; }

    /// <summary>Names and addresses accepted in the Host header besides loopback ones, without port. Default none.</summary>
    public IList<string> AllowedHosts { get; } = [];

    /// <summary>Where the server reaches us for notices; default the address we listen on.</summary>
    public Uri? NotifyAddress { get; set; }

    /// <summary>Readable log lines (default) or <c>compact</c> JSON.</summary>
    [AllowedValues("readable", "compact", ErrorMessage = "it takes readable or compact")]
    public string Log { get; set; } = "readable";

    /// <summary>For tests of the demo: the end of the ward's 48 hours; default the time of loading.</summary>
    public DateTimeOffset? WardEnd { get; set; }

    private const string DefaultRules = AirwayGuard.Rules.ShippedRuleSets.Default;

    /// <inheritdoc />
    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (NotifyAddress is { IsAbsoluteUri: false })
        {
            yield return new ValidationResult("Give an absolute address.", [nameof(NotifyAddress)]);
        }
    }
}
