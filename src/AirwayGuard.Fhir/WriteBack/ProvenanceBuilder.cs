using AirwayGuard.Core.Findings;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>Why one written version is as it is. Pure.</summary>
public static class ProvenanceBuilder
{
    /// <param name="target">The written version, <c>Type/id/_history/version</c>.</param>
    /// <param name="sources">The versions it rests on.</param>
    /// <param name="author">Reference to the author Device.</param>
    /// <param name="organization"><c>Organization/id</c> on whose behalf the Device writes; null leaves onBehalfOf out.</param>
    /// <param name="recorded">When it was written.</param>
    public static Provenance Build(
        string target, WriteActivity activity, IEnumerable<string> sources, MessageBasis basis, string runMode, ResourceReference author, string? organization, DateTimeOffset recorded)
    {
        ArgumentNullException.ThrowIfNull(basis);
        var code = CodeOf(activity);
        return new Provenance
        {
            Meta = new Meta { Tag = [new Coding(WrittenSystems.RunMode, runMode), new Coding(WrittenSystems.WrittenVersion, target)] },
            Text = Narratives.Of([$"{code} of {target} by {WrittenSystems.DeviceName} {basis.SoftwareVersion} under rule set {basis.RuleSet} {basis.RuleSetVersion}."]),
            Target = [new ResourceReference(target)],
            RecordedElement = new Instant(recorded),
            Policy = [Canonicals.Policy(basis)],
            Activity = new CodeableConcept(WrittenSystems.DataOperation, code),
            Agent =
            [
                new Provenance.AgentComponent
                {
                    Type = new CodeableConcept(WrittenSystems.ProvenanceAgent, "assembler"),
                    Who = author,
                    OnBehalfOf = organization is null ? null : new ResourceReference(organization),
                },
            ],
            Entity =
            [
                .. sources.Select(source => EntityOf(Provenance.ProvenanceEntityRole.Source, new ResourceReference(source))),
                EntityOf(Provenance.ProvenanceEntityRole.Derivation, Named(WrittenSystems.RuleSet, Canonicals.RuleSetVersion(basis))),
                EntityOf(Provenance.ProvenanceEntityRole.Derivation, Named(WrittenSystems.Basis, basis.BasisSha256)),
            ],
        };
    }

    private static string CodeOf(WriteActivity activity) => activity switch
    {
        WriteActivity.Create => "CREATE",
        WriteActivity.Update => "UPDATE",
        WriteActivity.Nullify => "NULLIFY",
        _ => throw new ArgumentOutOfRangeException(nameof(activity), activity, "No such activity."),
    };

    private static Provenance.EntityComponent EntityOf(Provenance.ProvenanceEntityRole role, ResourceReference what) => new() { Role = role, What = what };

    private static ResourceReference Named(string system, string value) => new() { Identifier = new Identifier(system, value) };
}
