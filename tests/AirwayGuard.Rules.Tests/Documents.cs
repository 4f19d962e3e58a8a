using System.Text;

namespace AirwayGuard.Rules.Tests;

/// <summary>A small valid document, and variants of it with one thing changed. The sign § marks where a fault is expected.</summary>
internal static class Documents
{
    public const char Mark = '§';

    public const string Valid =
        """
        schema: 1
        name: ward-7
        version: 2026.1
        title: Ward 7
        sources:
          local: "Ward policy 7.3, invented"
          memory: "A text recalled, invented"
        rules:
          - id: vacuum-above-ceiling
            judges: [setting]
            measure: vacuum-pressure
            above:
              neonate: { limit: "80 mm[Hg]", source: local, status: cited }
              infant: { limit: "13.5 kPa", source: local, status: cited }
              child: not-judged
              adult: { limit: "150 mm[Hg]", source: memory, status: from-memory }
            tighten:
              - when: { intracranial-pressure-monitored: yes }
                above: { limit: "120 mm[Hg]", source: local, status: cited }
            allow:
              - { reason: thick-secretions, bands: [adult], limit: "200 mm[Hg]", source: local, status: cited }
            severity: high
            withheldBy: mode-check
            stands: regulator
            waits: 3 h
            holds: 3 min
            mode: { default: silent }
            say: "Vacuum {value} is above {limit} for {band}."
            do: "The policy asks for at most {limit}."
            clears: a lower reading
          - id: mode-check
            judges: [setting]
            measure: regulator-mode
            is:
              all: { limit: full-line, source: local, status: common-practice }
            severity: high
            say: "The regulator is on {value}."
            do: "The policy asks for another mode."
            clears: another mode

        """;

    /// <summary>The valid document with one passage changed; the passage must be there.</summary>
    public static string With(string passage, string changed)
    {
        Assert.Contains(passage, Valid, StringComparison.Ordinal);
        return Valid.Replace(passage, changed, StringComparison.Ordinal);
    }

    public static RuleSetReading Read(string document) => RuleSetReader.Read(Encoding.UTF8.GetBytes(document), "ward.yaml");

    /// <summary>The document without its marks, and the places (line, column) where they stood.</summary>
    public static (string Document, (int Line, int Column)[] Places) TakeMarks(string marked)
    {
        var places = new List<(int, int)>();
        var clean = new StringBuilder();
        var (line, column) = (1, 1);
        foreach (var c in marked)
        {
            if (c == Mark)
            {
                places.Add((line, column));
                continue;
            }

            clean.Append(c);
            (line, column) = c == '\n' ? (line + 1, 1) : (line, column + 1);
        }

        return (clean.ToString(), [.. places]);
    }
}
