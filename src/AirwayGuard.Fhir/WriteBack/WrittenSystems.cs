using AirwayGuard.Core.Findings;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>Systems and addresses that stand on what is written.</summary>
public static class WrittenSystems
{
    public const string Finding = FindingKeys.Base + "sid/finding";
    public const string Flag = FindingKeys.Base + "sid/flag";
    public const string Device = FindingKeys.Base + "sid/device";
    public const string RuleSet = FindingKeys.Base + "sid/ruleset";
    public const string Basis = FindingKeys.Base + "sid/basis";
    public const string Check = FindingKeys.Base + "CodeSystem/suction-check";
    public const string RunMode = FindingKeys.Base + "CodeSystem/run-mode";

    /// <summary>Tag that holds a digest of the content as we wrote it; where it no longer fits, somebody else changed it.</summary>
    public const string ContentDigest = FindingKeys.Base + "CodeSystem/content-digest";

    /// <summary>Tag of a resource whose status we ended though it holds somebody else's changes.</summary>
    public const string Authorship = FindingKeys.Base + "CodeSystem/authorship";

    /// <summary>Code in <see cref="Authorship"/>.</summary>
    public const string Shared = "shared";

    /// <summary>Tag of a Provenance: the version it speaks of. Some servers strip versions from references.</summary>
    public const string WrittenVersion = FindingKeys.Base + "CodeSystem/written-version";

    public const string FlagDetail = "http://hl7.org/fhir/StructureDefinition/flag-detail";
    public const string FlagPriority = "http://hl7.org/fhir/StructureDefinition/flag-priority";
    public const string FlagPriorityCode = "http://hl7.org/fhir/flag-priority-code";
    public const string FlagCategory = "http://terminology.hl7.org/CodeSystem/flag-category";
    public const string DataOperation = "http://terminology.hl7.org/CodeSystem/v3-DataOperation";
    public const string ProvenanceAgent = "http://terminology.hl7.org/CodeSystem/provenance-participant-type";

    /// <summary>Value of the author Device's identifier.</summary>
    public const string DeviceValue = "airwayguard";

    /// <summary>Name of the author Device for people.</summary>
    public const string DeviceName = "AirwayGuard";
}
