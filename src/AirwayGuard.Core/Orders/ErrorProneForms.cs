namespace AirwayGuard.Core.Orders;

/// <summary>Finds ways of writing that are published as error-prone.</summary>
internal static class ErrorProneForms
{
    // Tubes are named with their zero, as in 7.0: only numbers with a unit are looked at.
    public static List<ErrorProneForm> Of(string text, List<Piece> pieces, List<Amount> amounts)
    {
        var measured = amounts.Where(amount => amount.Kind != Term.Number).Select(amount => amount.NumberAt).ToHashSet();
        var forms = new List<ErrorProneForm>();
        for (var i = 0; i < pieces.Count; i++)
        {
            var piece = pieces[i];
            var word = text.AsSpan(piece.Span.Start, piece.Span.Length);
            ErrorProneKind? kind = piece switch
            {
                { Term: Term.Number } when measured.Contains(i) && piece.Has(TokenMarks.TrailingZero) => ErrorProneKind.TrailingZero,
                { Term: Term.Number } when measured.Contains(i) && piece.Has(TokenMarks.NoLeadingZero) => ErrorProneKind.NoLeadingZero,
                { Term: Term.Millilitre } when word.StartsWith("cc", StringComparison.OrdinalIgnoreCase) => ErrorProneKind.CubicCentimetres,
                { Term: Term.TimesADay } when IsDaily(word) => ErrorProneKind.DailyAbbreviation,
                _ => null,
            };
            if (kind is { } found)
            {
                forms.Add(new ErrorProneForm(found, piece.Span));
            }
        }

        return forms;
    }

    private static bool IsDaily(ReadOnlySpan<char> word) => word.ToString().Replace(".", "", StringComparison.Ordinal).ToUpperInvariant() is "QD" or "QOD" or "OD";
}
