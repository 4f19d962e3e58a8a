using System.Globalization;
using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Core.Findings;

/// <summary>
/// What is judged, and on what, in one line: it changes exactly when a finding says or rests on something else. Two of them are
/// compared member by member to tell a person what differs. An estimate is no part of it: it explains, and nothing rests on it.
/// </summary>
public static class Fingerprints
{
    /// <summary>Of a record whose support was taken back, and of one that the policy now in force does not make.</summary>
    public const string Withdrawn = "withdrawn", Retired = "retired";

    /// <summary>Of a record that ended with its order.</summary>
    public const string OrderEnded = "order-ended";

    /// <summary>Of a record of what could not be told, once it can be told or is no longer asked.</summary>
    public const string Told = "told";

    private static readonly string[] OccurrenceMembers =
    [
        "severity", "value", "unit", "code", "age band", "time", "withheld", "limit comparison", "limit", "upper limit", "limit unit", "limit code", "limit source",
    ];

    private static readonly string[] SpellMembers = ["state", "end", "withheld", "severity"];

    private static readonly string[] CannotTellMembers = ["missing", "silent", "count", "time", "latest time"];

    public static string Of(Occurrence occurrence)
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"{occurrence.Severity}|{occurrence.Value}|{occurrence.Unit}|{occurrence.Code}|{occurrence.Band}|{occurrence.At}|{occurrence.Withheld}");
        text.Append(CultureInfo.InvariantCulture, $"|{occurrence.Limit.Comparison}|{occurrence.Limit.Low}|{occurrence.Limit.High}|{occurrence.Limit.Unit}|{occurrence.Limit.Code}|{occurrence.Limit.Source}");
        foreach (var item in occurrence.RestsOn)
        {
            text.Append(CultureInfo.InvariantCulture, $"|{item.Row.Packed}:{item.Fact.Arrival.Value}.{item.Fact.Ordinal}");
        }

        return text.ToString();
    }

    public static string Of(DerivedFinding spell)
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"{spell.State}|{spell.EndedAt}|{spell.IsWithheld}|{Reconciler.Highest(spell)}");
        foreach (var occurrence in spell.Occurrences)
        {
            text.Append(CultureInfo.InvariantCulture, $"|{occurrence.Key:N}:{Of(occurrence)}");
        }

        return text.ToString();
    }

    public static string Of(DerivedCannotTell one) => string.Create(
        CultureInfo.InvariantCulture, $"{string.Join(',', one.Missing)}|{one.Rule.Mode == Mode.Silent}|{one.Count}|{one.At}|{one.Latest}");

    /// <summary>Whether an occurrence's fingerprint names a version of a row that is older than a position.</summary>
    public static bool RestsOnOlder(string occurrence, Entity row, Position than)
    {
        var begin = string.Create(CultureInfo.InvariantCulture, $"{row.Packed}:");
        foreach (var part in occurrence.Split('|').Skip(OccurrenceMembers.Length))
        {
            if (part.StartsWith(begin, StringComparison.Ordinal) && long.TryParse(part.AsSpan(begin.Length, part.IndexOf('.', StringComparison.Ordinal) - begin.Length), CultureInfo.InvariantCulture, out var arrival)
                && arrival < than.Value)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The rows and facts an occurrence's fingerprint names.</summary>
    public static IEnumerable<(Entity Row, FactId Fact)> RestsOn(string occurrence)
    {
        foreach (var part in occurrence.Split('|').Skip(OccurrenceMembers.Length))
        {
            var numbers = part.Split(':', '.');
            yield return (
                new Entity(int.Parse(numbers[0], CultureInfo.InvariantCulture)),
                new FactId(new Position(long.Parse(numbers[1], CultureInfo.InvariantCulture)), ushort.Parse(numbers[2], CultureInfo.InvariantCulture)));
        }
    }

    /// <summary>Keys of the occurrences that a spell's fingerprint names.</summary>
    public static IEnumerable<Guid> OccurrencesOf(string spell) => Parts(spell).Occurrences.Keys.Select(Guid.Parse);

    /// <summary>What differs between two fingerprints of one record, in words; empty where nothing does.</summary>
    public static IReadOnlyList<string> Differences(FindingKind kind, string recorded, string now)
    {
        var found = new List<string>();
        if (recorded == now)
        {
            return found;
        }

        if (kind == FindingKind.Occurrence)
        {
            Compare(OccurrenceMembers, "rows it rests on", recorded.Split('|'), now.Split('|'), "", found);
            return found;
        }

        if (kind == FindingKind.CannotTell)
        {
            Compare(CannotTellMembers, "", recorded.Split('|'), now.Split('|'), "", found);
            return found;
        }

        var (before, after) = (Parts(recorded), Parts(now));
        Compare(SpellMembers, "", before.Head, after.Head, "", found);
        foreach (var (key, occurrence) in before.Occurrences)
        {
            if (after.Occurrences.TryGetValue(key, out var same))
            {
                Compare(OccurrenceMembers, "rows it rests on", occurrence, same, $"occurrence {Guid.Parse(key):D}: ", found);
            }
            else
            {
                found.Add($"occurrence {Guid.Parse(key):D}: recorded, not found again");
            }
        }

        found.AddRange(after.Occurrences.Keys.Where(key => !before.Occurrences.ContainsKey(key)).Select(key => $"occurrence {Guid.Parse(key):D}: found now, not recorded"));
        return found;
    }

    private static void Compare(string[] names, string rest, string[] before, string[] after, string prefix, List<string> found)
    {
        for (var i = 0; i < names.Length; i++)
        {
            var (old, now) = (i < before.Length ? before[i] : "", i < after.Length ? after[i] : "");
            if (old != now)
            {
                found.Add($"{prefix}{names[i]}: recorded {Shown(names[i], old)}, now {Shown(names[i], now)}");
            }
        }

        if (rest.Length > 0 && !before.Skip(names.Length).SequenceEqual(after.Skip(names.Length), StringComparer.Ordinal))
        {
            found.Add($"{prefix}{rest}: not the same");
        }
    }

    private static string Shown(string name, string value) => value.Length == 0 ? "none"
        : name is "time" or "latest time" or "end" && long.TryParse(value, CultureInfo.InvariantCulture, out var ticks) ? (ticks == 0 ? "none" : FindingKeys.Anchor(ticks))
        : value;

    // An occurrence begins with its key, 32 hexadecimal digits and a colon; the rows it rests on begin with a shorter number.
    private static (string[] Head, Dictionary<string, string[]> Occurrences) Parts(string spell)
    {
        var occurrences = new Dictionary<string, List<string>>(StringComparer.Ordinal);
        var (head, current) = (new List<string>(), (List<string>?)null);
        foreach (var part in spell.Split('|'))
        {
            if (part.Length > 32 && part[32] == ':' && Guid.TryParseExact(part[..32], "N", out _))
            {
                occurrences[part[..32]] = current = [part[33..]];
            }
            else
            {
                (current ?? head).Add(part);
            }
        }

        return ([.. head], occurrences.ToDictionary(one => one.Key, one => one.Value.ToArray(), StringComparer.Ordinal));
    }
}
