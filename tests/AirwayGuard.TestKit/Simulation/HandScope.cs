using AirwayGuard.Core.Findings;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>Which findings a person's hand bears on: what they closed, with its spell, and what may or may not have been noticed.</summary>
internal sealed class HandScope
{
    private readonly HashSet<Guid> _closed = [];
    private readonly HashSet<Guid> _perhaps = [];

    public HandScope(IReadOnlyDictionary<Guid, PersonsMark> marks, params IReadOnlyDictionary<Guid, RecordedFinding>[] recorded)
    {
        foreach (var (key, mark) in marks)
        {
            var into = mark.Kind switch
            {
                ActKind.CloseFlag or ActKind.MitigateIssue => _closed,

                // It is met when something is to be written there; where nothing is, nobody notices.
                ActKind.DeleteFlag => _perhaps,
                _ => null,
            };
            into?.Add(key);
            foreach (var finding in recorded.Select(findings => findings.GetValueOrDefault(key)))
            {
                if (finding is { Kind: FindingKind.Occurrence })
                {
                    into?.Add(finding.Parent);
                }
            }
        }
    }

    /// <summary>A person closed it, or what it rests on.</summary>
    public bool IsClosed(Guid key) => _closed.Contains(key) || _perhaps.Contains(key);

    /// <summary>Whether that was noticed hangs on when what was judged.</summary>
    public bool IsPerhapsClosed(Guid key) => _perhaps.Contains(key);
}
