namespace AirwayGuard.Core.Orders;

/// <summary>Finds ways of writing that are published as error-prone.</summary>
internal static class ErrorProneForms
{
    public static List<ErrorProneForm> Of(string text, List<Piece> pieces)
    {
        var forms = new List<ErrorProneForm>();
        foreach (var piece in pieces)
        {
            var word = text.AsSpan(piece.Span.Start, piece.Span.Length);
            ErrorProneKind? kind = piece switch
            {
                { Term: Term.Number } when piece.Has(TokenMarks.TrailingZero) => ErrorProneKind.TrailingZero,
                { Term: Term.Number } when piece.Has(TokenMarks.NoLeadingZero) => ErrorProneKind.NoLeadingZero,
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
