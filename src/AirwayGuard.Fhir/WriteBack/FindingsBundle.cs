using AirwayGuard.Core.Findings;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>Findings as one Bundle of type collection, for output that no server takes. Pure.</summary>
public static class FindingsBundle
{
    /// <summary>DetectedIssues, then Flags, each in the order given; Flags link to the issues beside them.</summary>
    /// <exception cref="ArgumentException">A Flag's subject is no Patient or Location.</exception>
    public static Bundle Build(IEnumerable<IssueMessage> issues, IEnumerable<FlagMessage> flags)
    {
        ArgumentNullException.ThrowIfNull(issues);
        ArgumentNullException.ThrowIfNull(flags);
        var bundle = new Bundle { Type = Bundle.BundleType.Collection };
        var links = new Dictionary<Guid, string>();
        foreach (var issue in issues)
        {
            links[issue.Key] = Urn(issue.Key);
            Add(bundle, issue.Key, DetectedIssueBuilder.Build(issue, AuthorDevice.ByIdentifier()));
        }

        foreach (var flag in flags)
        {
            Add(bundle, flag.Key, FlagBuilder.Build(flag, AuthorDevice.ByIdentifier(), links));
        }

        return bundle;
    }

    private static string Urn(Guid key) => $"urn:uuid:{key:D}";

    private static void Add(Bundle bundle, Guid key, Resource resource) =>
        bundle.Entry.Add(new Bundle.EntryComponent { FullUrl = Urn(key), Resource = resource });
}
