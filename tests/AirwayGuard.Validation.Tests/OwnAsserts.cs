using System.Reflection;
using AirwayGuard.Core.Findings;
using Hl7.Fhir.Introspection;
using Hl7.Fhir.Model;

namespace AirwayGuard.Validation.Tests;

/// <summary>What the validator does not see offline: targets of references, missing narrative, unknown codes, LOINC check digits.</summary>
internal static class OwnAsserts
{
    private const string Loinc = "http://loinc.org";

    public static IReadOnlyList<string> ErrorsOf(DomainResource resource, Specification specification)
    {
        var errors = new List<string>();
        if (resource is not Subscription && resource.Text?.Div is not { Length: > 60 })
        {
            errors.Add("no narrative");
        }

        if (resource is Flag flag && TypeOf(flag.Subject) is not ("Patient" or "Location"))
        {
            errors.Add("Flag.subject is no Patient or Location");
        }

        Walk(resource, resource.TypeName, errors, specification);
        return errors;
    }

    /// <summary>Mod 10 check digit of a LOINC code, as LOINC's users' guide describes it.</summary>
    public static bool IsLoinc(string code)
    {
        if (code.Split('-') is not [{ Length: > 0 } digits, { Length: 1 } check] || !digits.All(char.IsAsciiDigit) || !char.IsAsciiDigit(check[0]))
        {
            return false;
        }

        var sum = digits.Reverse().Select((digit, place) => (place % 2 == 0 ? 2 : 1) * (digit - '0')).Sum(value => (value / 10) + (value % 10));
        return (10 - (sum % 10)) % 10 == check[0] - '0';
    }

    private static void Walk(Base element, string path, List<string> errors, Specification specification)
    {
        if (element is Coding { System: { } system, Code: { } code })
        {
            CheckCode(system, code, path, errors, specification);
        }

        foreach (var property in element.GetType().GetProperties().Where(one => one.GetCustomAttribute<FhirElementAttribute>() is not null))
        {
            var allowed = property.GetCustomAttribute<ReferencesAttribute>()?.Resources;
            var values = property.GetValue(element) switch
            {
                Base one => [one],
                IEnumerable<Base> several => several,
                _ => Enumerable.Empty<Base>(),
            };
            foreach (var value in values)
            {
                var place = $"{path}.{property.Name}";
                if (value is ResourceReference reference && allowed is not null && !IsAllowed(TypeOf(reference), allowed))
                {
                    errors.Add($"{place} may not refer to {TypeOf(reference)}");
                }

                Walk(value, place, errors, specification);
            }
        }
    }

    private static bool IsAllowed(string? type, IReadOnlyCollection<string> allowed) => type is null || allowed.Contains("Resource", StringComparer.Ordinal) || allowed.Contains(type, StringComparer.Ordinal);

    private static string? TypeOf(ResourceReference? reference) => reference?.Type
        ?? (reference?.Reference is { } literal && !literal.StartsWith("urn:", StringComparison.Ordinal) ? literal.Split('/')[0] : null);

    // Our own code systems are not in the specification; run-mode's codes are our own.
    private static void CheckCode(string system, string code, string path, List<string> errors, Specification specification)
    {
        var isKnown = system switch
        {
            Loinc => IsLoinc(code),
            FindingKeys.Base + "CodeSystem/run-mode" => code is "live" or "silent" or "replay",
            _ => system.StartsWith(FindingKeys.Base, StringComparison.Ordinal) || specification.CodesOf(system).Contains(code),
        };
        if (!isKnown)
        {
            errors.Add($"{path}: {code} is not a code of {system}");
        }
    }
}
