namespace AirwayGuard.Core.Diagnostics;

/// <summary>Finds the known word that a misspelt one most likely stands for.</summary>
public static class NearWord
{
    // Longer words are no slip of the keys, and the table of distances would grow with them.
    private const int Longest = 48;

    /// <summary>The nearest known word within a third of its letters, or null.</summary>
    public static string? Find(string word, IEnumerable<string> known)
    {
        if (word.Length is 0 or > Longest)
        {
            return null;
        }

        var (best, bestDistance) = ((string?)null, int.MaxValue);
        foreach (var candidate in known)
        {
            var distance = Distance(word.ToUpperInvariant(), candidate.ToUpperInvariant());
            if (distance < bestDistance && distance <= Math.Max(1, candidate.Length / 3))
            {
                (best, bestDistance) = (candidate, distance);
            }
        }

        return best;
    }

    /// <summary>Letters to insert, drop, change or swap with the next to make one word the other.</summary>
    private static int Distance(string one, string other)
    {
        var (older, old, row) = (new int[other.Length + 1], Enumerable.Range(0, other.Length + 1).ToArray(), new int[other.Length + 1]);
        for (var i = 1; i <= one.Length; i++)
        {
            row[0] = i;
            for (var j = 1; j <= other.Length; j++)
            {
                var changed = old[j - 1] + (one[i - 1] == other[j - 1] ? 0 : 1);
                row[j] = Math.Min(changed, 1 + Math.Min(old[j], row[j - 1]));
                if (i > 1 && j > 1 && one[i - 1] == other[j - 2] && one[i - 2] == other[j - 1])
                {
                    row[j] = Math.Min(row[j], 1 + older[j - 2]);
                }
            }

            (older, old, row) = (old, row, older);
        }

        return old[other.Length];
    }
}
