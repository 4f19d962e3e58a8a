using System.Collections.Frozen;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Orders;

/// <summary>
/// The words and phrases of suction orders that are understood. Abbreviations and spellings are common practice, no source; the longest
/// phrase counts.
/// </summary>
internal static class Lexicon
{
    /// <summary>Words of the longest phrase.</summary>
    public const int LongestPhrase = 5;

    private static readonly FrozenDictionary<string, Entry> Entries = Build();

    public readonly record struct Entry(Term Term, decimal Value, Unit Unit);

    /// <param name="phrase">Words in lower case with single blanks.</param>
    public static bool TryFind(string phrase, out Entry entry) => Entries.TryGetValue(phrase, out entry);

    private static FrozenDictionary<string, Entry> Build()
    {
        var all = new Dictionary<string, Entry>(StringComparer.Ordinal);
        foreach (var (term, words) in LexiconWords.Terms.Concat(LexiconOthers.Terms).Concat(LexiconChanges.Terms))
        {
            foreach (var phrase in Phrases(words))
            {
                all.Add(phrase, new Entry(term, 0m, Unit.None));
            }
        }

        foreach (var (unit, words) in LexiconWords.Pressures)
        {
            foreach (var phrase in Phrases(words))
            {
                all.Add(phrase, new Entry(Term.Pressure, 0m, unit));
            }
        }

        foreach (var (term, value, words) in LexiconWords.Values.Concat(LexiconChanges.Values))
        {
            foreach (var phrase in Phrases(words))
            {
                all.Add(phrase, new Entry(term, value, Unit.None));
            }
        }

        return all.ToFrozenDictionary(StringComparer.Ordinal);
    }

    private static string[] Phrases(string words) => words.Split(['|', '\n'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
}
