using AirwayGuard.Core.Findings;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>Canonical address of the policy that a message was judged by.</summary>
internal static class Canonicals
{
    public static string Policy(MessageBasis basis) =>
        $"{FindingKeys.Base}Library/{Uri.EscapeDataString(basis.RuleSet)}|{Uri.EscapeDataString(basis.RuleSetVersion)}";

    public static string RuleSetVersion(MessageBasis basis) => $"{basis.RuleSet}|{basis.RuleSetVersion}+site.{basis.SiteVersion}";
}
