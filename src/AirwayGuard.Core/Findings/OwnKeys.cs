using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Findings;

/// <summary>
/// Keys by patient: a key says nothing of the patient, and a row may be corrected from one to another. What is recorded of one patient,
/// with what a person did to it, stays that patient's; what moved gets a key of its own, with a number at its end. What stood on a place or
/// a device becomes the patient's whose it turns out to be.
/// </summary>
public static class OwnKeys
{
    /// <summary>The findings as the facts make them, by the keys under which this patient's are recorded or are to be.</summary>
    /// <param name="own">Keys of what is recorded of the patient.</param>
    /// <param name="find">What is recorded under a key, whoever's it is; null for nothing.</param>
    public static async ValueTask<DerivedFindings> OfAsync(
        DerivedFindings derived, Entity patient, IReadOnlyCollection<Guid> own, Func<Guid, ValueTask<FindingRecord?>> find)
    {
        ArgumentNullException.ThrowIfNull(derived);
        var (mine, others) = (own as IReadOnlySet<Guid> ?? own.ToHashSet(), new HashSet<Guid>());
        foreach (var finding in derived.Findings)
        {
            foreach (var occurrence in finding.Occurrences)
            {
                await LookAsync(number => FindingKeys.Issue(finding.Rule.Id, occurrence.Subject, number), goesOn: false);
            }

            if (finding.Stands)
            {
                // A spell that a person closed may be shown again, under a further number.
                await LookAsync(number => FindingKeys.Flag(finding.Rule.Id, finding.Line, finding.Anchor, number), goesOn: true);
            }
        }

        return others.Count == 0 ? derived : derived with { Findings = [.. derived.Findings.Select(finding => Renamed(finding, others))], OthersKeys = others };

        async ValueTask LookAsync(Func<int, Guid> keyOf, bool goesOn)
        {
            for (var number = 1; ; number++)
            {
                var key = keyOf(number);
                if (mine.Contains(key))
                {
                    if (!goesOn)
                    {
                        return;
                    }
                }
                else if (await find(key) is not { } record)
                {
                    return;
                }
                else if (record.Patient != patient && record.Patient.Kind == EntityKind.Patient)
                {
                    others.Add(key);
                }
                else
                {
                    return;
                }
            }
        }
    }

    /// <summary>The first number, from one on, whose key is no other patient's.</summary>
    internal static int Next(int number, Func<int, Guid> keyOf, IReadOnlySet<Guid> others)
    {
        while (others.Contains(keyOf(number)))
        {
            number++;
        }

        return number;
    }

    private static DerivedFinding Renamed(DerivedFinding finding, HashSet<Guid> others)
    {
        var renamed = finding with { Occurrences = [.. finding.Occurrences.Select(occurrence => Renamed(finding.Rule.Id, occurrence, others))] };
        if (!finding.Stands)
        {
            return renamed;
        }

        var number = Next(1, one => FindingKeys.Flag(finding.Rule.Id, finding.Line, finding.Anchor, one), others);
        return renamed with { Number = number, Flag = FindingKeys.Flag(finding.Rule.Id, finding.Line, finding.Anchor, number) };
    }

    private static Occurrence Renamed(string check, Occurrence occurrence, HashSet<Guid> others)
    {
        var number = Next(1, one => FindingKeys.Issue(check, occurrence.Subject, one), others);
        return number == 1 ? occurrence : occurrence with { Number = number, Key = FindingKeys.Issue(check, occurrence.Subject, number) };
    }
}
