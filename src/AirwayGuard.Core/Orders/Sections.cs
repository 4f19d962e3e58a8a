namespace AirwayGuard.Core.Orders;

/// <summary>
/// Gathers sentences into orders: one begins where suction of the airway is named anew and asks for something else than before; all
/// other sentences join the order before them.
/// </summary>
internal static class Sections
{
    public static List<Section> Of(OrderTextWork work)
    {
        var sections = new List<Section>();
        var bySentence = new Section[work.Layout.Sentences.Count];
        var acted = false;
        for (var s = 0; s < bySentence.Length; s++)
        {
            if (sections.Count == 0 || (work.Layout.ActsOnAirway[s] && acted))
            {
                sections.Add(new Section(work.Layout.Sentences[s].IsItem));
            }

            acted |= work.Layout.ActsOnAirway[s];
            bySentence[s] = sections[^1];
        }

        foreach (var mention in work.Mentions)
        {
            bySentence[work.Layout.SentenceOf[mention.Piece]].Add(mention);
        }

        foreach (var (piece, span) in work.Unread)
        {
            bySentence[work.Layout.SentenceOf[piece]].Unread.Add(span);
        }

        for (var i = 0; i < work.Pieces.Count; i++)
        {
            if (work.Pieces[i] is { Term: Term.Sign, Value: > 0m } && work.Layout.About(i) == Topic.Airway && work.Before(i, 4, Term.Not, Term.Nothing) < 0)
            {
                bySentence[work.Layout.SentenceOf[i]].NamesThickSecretions = true;
            }
        }

        return Merge(sections);
    }

    private static List<Section> Merge(List<Section> sections)
    {
        var merged = new List<Section>();
        foreach (var section in sections)
        {
            if (merged.Count == 0 || section.IsAnother(merged[^1]))
            {
                merged.Add(section);
            }
            else
            {
                merged[^1].Add(section);
            }
        }

        return merged;
    }
}
