using System.Text;
using AirwayGuard.Core.Judging;
using AirwayGuard.Rules;
using Xunit;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>The shipped strict set as a site adapts it: one passage of one check changed.</summary>
internal static class SiteRules
{
    public static RuleSet Strict(string check, string passage, string changed)
    {
        var text = Encoding.UTF8.GetString(ShippedRuleSets.Bytes("strict-ranges").Span);
        var from = text.IndexOf($"- id: {check}\n", StringComparison.Ordinal);
        var at = text.IndexOf(passage, from, StringComparison.Ordinal);
        Assert.True(from >= 0 && at > from, "The passage is not in the check.");
        var reading = RuleSetReader.Read(Encoding.UTF8.GetBytes(text[..at] + changed + text[(at + passage.Length)..]), "site.yaml");
        Assert.Empty(reading.Faults);
        return reading.RuleSet!;
    }
}
