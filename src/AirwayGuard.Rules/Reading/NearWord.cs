namespace AirwayGuard.Rules.Reading;

/// <summary>Finds the known word that a misspelt one most likely stands for.</summary>
internal static class NearWord
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

    /// <summary>Letters to insert, drop or change to make one word the other.</summary>
    private static int Distance(string one, string other)
    {
        var row = new int[other.Length + 1];
        for (var j = 0; j < row.Length; j++)
        {
            row[j] = j;
        }

        for (var i = 1; i <= one.Length; i++)
        {
            var diagonal = row[0];
            row[0] = i;
            for (var j = 1; j <= other.Length; j++)
            {
                var changed = diagonal + (one[i - 1] == other[j - 1] ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.Min(changed, 1 + Math.Min(row[j], row[j - 1]));
            }
        }

        return row[other.Length];
    }
}
