using System.Collections.Frozen;

namespace AirwayGuard.Core.Orders;

/// <summary>
/// Misspellings of the words that carry an order: one letter left out, doubled, or changed places with its neighbour, never the first. Other
/// letters make other words (section) and are not guessed.
/// </summary>
internal static class Spelling
{
    private static readonly string[] Words =
    [
        "suction", "suctioning", "tracheal", "tracheostomy", "endotracheal", "catheter", "vacuum", "pressure", "saline", "lavage", "needed", "required", "necessary", "indicated",
        "secretions", "preoxygenate", "preoxygenation", "hyperoxygenate", "hyperoxygenation", "technique", "maximum", "shallow", "regulator", "airway", "audible", "visible", "hourly", "without",
    ];

    private static readonly FrozenDictionary<string, string> Meant = Build();

    /// <summary>The word that is meant, or the word itself.</summary>
    public static string Of(string word) => Meant.GetValueOrDefault(word, word);

    private static FrozenDictionary<string, string> Build()
    {
        var meant = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var word in Words)
        {
            for (var i = 1; i < word.Length; i++)
            {
                meant.TryAdd(word.Remove(i, 1), word);
                meant.TryAdd(word.Insert(i, word[i].ToString()), word);
                if (i + 1 < word.Length)
                {
                    meant.TryAdd(word[..i] + word[i + 1] + word[i] + word[(i + 2)..], word);
                }
            }
        }

        foreach (var word in Words)
        {
            meant.Remove(word);
        }

        // Words of their own.
        meant.Remove("need");
        return meant.Where(pair => !Lexicon.TryFind(pair.Key, out _)).ToFrozenDictionary(StringComparer.Ordinal);
    }
}
