using System.Text;
using AirwayGuard.Rules.Cases;

namespace AirwayGuard.Rules.Tests.Cases;

/// <summary>A small valid file of cases, and variants of it with one thing changed. The sign § marks where a fault is expected.</summary>
internal static class CaseDocuments
{
    public const string Valid =
        """
        schema: 1
        cases:
          - case: an adult's ceiling is 150 mmHg
            about: vacuum-above-ceiling
            born: 66 years
            stay: inpatient
            unknown-age: cannot-tell
            as-of: 12:00
            things:
              - { id: wall-left, kind: vacuum-regulator, stands-at: bay-3, used-from: 08:00, used-until: day 2 08:00 }
            chart:
              - { at: 10:00, until: 10:01, device: wall-left, vacuum-pressure: 151 mmHg, vacuum-reading-method: occluded }
              - { order: first, at: 10:30, status: active, order-vacuum-high: 120 mmHg }
              - { order: second, at: 11:00, replaces: first, order-vacuum-high: 120 mmHg }
            finds:
              - { check: vacuum-above-ceiling, at: 10:00, latest: 10:00, severity: high, value: 151 mmHg, count: 1, band: adult, state: open, withheld: no, flag: yes }
          - case: without an age nobody can tell
            about: [vacuum-above-ceiling]
            chart:
              - { at: 10:00, vacuum-pressure: 151 mmHg }
            cannot-tell:
              - { check: vacuum-above-ceiling, at: 10:00, missing: birth date, count: 1 }

        """;

    /// <summary>The valid document with one passage changed; the passage must be there.</summary>
    public static string With(string passage, string changed)
    {
        Assert.Contains(passage, Valid, StringComparison.Ordinal);
        return Valid.Replace(passage, changed, StringComparison.Ordinal);
    }

    public static CaseFile Read(string document) => CaseFileReader.Read(Encoding.UTF8.GetBytes(document), "ward.cases.yaml");

    /// <summary>A file whose one case charts this row.</summary>
    public static string Charting(string row) => $"schema: 1\ncases:\n  - case: one\n    about: vacuum-above-ceiling\n    chart:\n      - {{ {row} }}\n";
}
