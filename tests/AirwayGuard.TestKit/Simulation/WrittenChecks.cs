using AirwayGuard.Core.Findings;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>Whether what stands on the server is what the ledger records: once each, in its state, and a person's closing left alone.</summary>
internal static class WrittenChecks
{
    public static IReadOnlyList<WrittenResource> On(ServerContents server) =>
        [.. new[] { "DetectedIssue", "Flag" }.SelectMany(server.All).Select(version => WrittenResource.Read(version.Body.Span))];

    public static IEnumerable<string> Faults(ServerContents server, IReadOnlyDictionary<Guid, RecordedFinding> recorded, bool hasTwoWriters, bool hasRaced)
    {
        var (written, marks) = (On(server).ToLookup(one => one.Key), server.Hands.Marks);
        foreach (var same in written)
        {
            // Copies that a race of the server's made are taken back but for one; without a race there are none.
            var standing = same.Where(one => !hasRaced || one.Status != "entered-in-error").ToArray();
            if (standing.Length > 1)
            {
                yield return $"{same.First().Type} {same.Key} is there {standing.Length} times.";
            }

            if (!recorded.ContainsKey(same.Key))
            {
                yield return $"{same.First().Type} {same.Key} is not recorded.";
            }
        }

        foreach (var finding in recorded.Values.OrderBy(one => one.Key))
        {
            var there = written[finding.Key].OrderBy(one => one.Status == "entered-in-error").FirstOrDefault();
            var hand = marks.TryGetValue(finding.Key, out var mark) ? mark.Kind : ActKind.Chart;
            if (finding.Sent && !Allowed(finding, hand).Contains(there?.Status ?? "", StringComparer.Ordinal))
            {
                yield return $"On the server {there?.Status ?? "nothing"}: {finding}";
            }

            if (there is not null && (there.Check != finding.Check || there.Patient != finding.Patient))
            {
                yield return $"On the server {there.Check} of {there.Patient}: {finding}";
            }
        }

        // A process that stood still between its look and its write may have let another look meanwhile: a Provenance has no key.
        foreach (var target in hasTwoWriters ? [] : server.ProvenanceTargets.GroupBy(target => target, StringComparer.Ordinal).Where(group => group.Count() > 1))
        {
            yield return $"{target.Count()} Provenances of one version.";
        }
    }

    /// <summary>
    /// What stands on two servers after the same charting, said in fields that are fixed (docs/meanings.md); statuses are held against the
    /// ledgers. What is there on one only is told by the ledgers too: it may have been over, or taken back, before anybody looked.
    /// </summary>
    public static IEnumerable<string> Differences(ServerContents here, ServerContents there, HandScope hand)
    {
        var other = On(there).Where(IsCompared).ToLookup(one => one.Key);
        foreach (var one in On(here).Where(IsCompared).OrderBy(one => one.Key))
        {
            if (other[one.Key].FirstOrDefault() is { } two && one with { Status = "" } != two with { Status = "" })
            {
                yield return $"On the server {one}; without faults {two}";
            }
        }

        bool IsCompared(WrittenResource one) => one.Status != "entered-in-error" && !here.Hands.Marks.ContainsKey(one.Key) && !hand.IsClosed(one.Key);
    }

    // What a person did stays; of what they changed without ending it, the end alone is written.
    private static string[] Allowed(RecordedFinding finding, ActKind hand) => hand switch
    {
        ActKind.CloseFlag => ["inactive"],
        ActKind.DeleteFlag or ActKind.DeleteIssue => ["", "entered-in-error"],
        ActKind.MitigateIssue or ActKind.EditIssue => finding.State == FindingState.Withdrawn ? ["corrected"] : ["final", "amended", "corrected"],

        // Ended once, it is not set in force again.
        ActKind.EditFlag => finding.State == FindingState.Open ? ["active", "inactive"] : ["inactive"],
        _ => Allowed(finding),
    };

    // A spell that was over before anybody judged it was never shown, so no Flag has to be taken down.
    private static string[] Allowed(RecordedFinding finding) => (finding.Kind, finding.State) switch
    {
        // One that was withheld was never shown, so nothing has to be taken back.
        (FindingKind.Occurrence, FindingState.Withdrawn) => ["entered-in-error", ""],
        (FindingKind.Occurrence, _) => ["final", "amended"],
        (_, FindingState.Open) => ["active"],
        (_, FindingState.Withdrawn) => ["entered-in-error", ""],
        (_, FindingState.Cleared) => ["inactive", ""],
        _ => ["inactive"],
    };
}
