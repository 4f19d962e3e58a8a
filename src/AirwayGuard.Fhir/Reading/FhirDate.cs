namespace AirwayGuard.Fhir.Reading;

/// <summary>Reads FHIR's date of any precision: <c>1961</c>, <c>1961-05</c>, <c>1961-05-02</c>.</summary>
internal static class FhirDate
{
    /// <param name="precision">4 for a year, 6 for a month, 8 for a day; what is not given is 0.</param>
    public static bool TryRead(ReadOnlySpan<byte> text, out int year, out int month, out int day, out byte precision)
    {
        year = month = day = 0;
        precision = 0;
        if (text.Length is not (4 or 7 or 10) || !TryDigits(text[..4], out year) || year == 0)
        {
            return false;
        }

        precision = 4;
        if (text.Length >= 7)
        {
            if (text[4] != '-' || !TryDigits(text[5..7], out month) || month is < 1 or > 12)
            {
                return false;
            }

            precision = 6;
        }

        if (text.Length == 10)
        {
            if (text[7] != '-' || !TryDigits(text[8..], out day) || day < 1 || day > DateTime.DaysInMonth(year, month))
            {
                return false;
            }

            precision = 8;
        }

        return true;
    }

    private static bool TryDigits(ReadOnlySpan<byte> text, out int number)
    {
        number = 0;
        foreach (var digit in text)
        {
            if (digit is < (byte)'0' or > (byte)'9')
            {
                return false;
            }

            number = (number * 10) + digit - '0';
        }

        return true;
    }
}
