using AirwayGuard.Fhir.WriteBack;
using Firely.Fhir.Validation;
using Hl7.Fhir.Model;
using Hl7.Fhir.Specification.Source;
using Hl7.Fhir.Specification.Terminology;
using Xunit;

[assembly: AssemblyFixture(typeof(AirwayGuard.Validation.Tests.Specification))]

namespace AirwayGuard.Validation.Tests;

/// <summary>R4 as published, offline. Neither validator nor resolvers are safe for concurrent use: one, behind a lock, for all tests.</summary>
public sealed class Specification : IAsyncLifetime
{
    private static readonly string[] Systems =
    [
        WrittenSystems.FlagCategory, WrittenSystems.FlagPriorityCode, WrittenSystems.DataOperation, WrittenSystems.ProvenanceAgent,
        "http://dicom.nema.org/resources/ontology/DCM", "http://terminology.hl7.org/CodeSystem/audit-entity-type",
    ];

    private readonly Lock _one = new();
    private readonly Dictionary<string, HashSet<string>> _codes = new(StringComparer.Ordinal);
    private readonly DirectoryInfo _extracted = Directory.CreateTempSubdirectory("airwayguard-r4-");
    private readonly CachedResolver _resolver;
    private readonly Validator _validator;

    public Specification()
    {
        var zip = new ZipSource(Path.Combine(AppContext.BaseDirectory, "specification.zip"), _extracted.FullName);
        _resolver = new CachedResolver(new SnapshotSource(new CachedResolver(zip)));
        _validator = new Validator(_resolver, LocalTerminologyService.CreateDefaultForCore(_resolver), null, new ValidationSettings());
    }

    /// <summary>Errors of a resource against R4, in words.</summary>
    public IReadOnlyList<string> ErrorsOf(Resource resource)
    {
        lock (_one)
        {
            return [.. _validator.Validate(resource).Issue
                .Where(issue => issue.Severity is OperationOutcome.IssueSeverity.Error or OperationOutcome.IssueSeverity.Fatal)
                .Select(issue => $"{string.Join(' ', issue.Expression)}: {issue.Details?.Text}")];
        }
    }

    /// <summary>Codes of a code system of the specification; none for one that is not in it.</summary>
    public IReadOnlySet<string> CodesOf(string system) => _codes.GetValueOrDefault(system) ?? [];

    public async ValueTask InitializeAsync()
    {
        foreach (var system in Systems)
        {
            var found = (CodeSystem?)await _resolver.ResolveByCanonicalUriAsync(system);
            _codes[system] = Flatten(found?.Concept ?? []).ToHashSet(StringComparer.Ordinal);
        }

        // The validator builds its schema of Reference while it builds the first resource's, and comes to another answer on ref-1 when that
        // resource is a Provenance. xunit orders tests by the assembly's path, so the first one validated is named here.
        _ = ErrorsOf(new Patient { GeneralPractitioner = [new ResourceReference("Practitioner/1")] });
    }

    public ValueTask DisposeAsync()
    {
        _extracted.Delete(recursive: true);
        return ValueTask.CompletedTask;
    }

    private static IEnumerable<string> Flatten(IEnumerable<CodeSystem.ConceptDefinitionComponent> concepts) =>
        concepts.SelectMany(concept => Flatten(concept.Concept).Prepend(concept.Code!));
}
