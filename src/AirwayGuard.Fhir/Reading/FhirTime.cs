namespace AirwayGuard.Fhir.Reading;

/// <summary>What a charted time turned out to be.</summary>
internal enum TimeForm : byte
{
    Exact, NoOffset, Unreadable,
}

/// <summary>
/// Reads FHIR's dateTime and instant: <c>2025-03-04T14:02:00.120+11:00</c>. A date alone, or a time without an offset, is no
/// instant and is refused; nothing is assumed. Seconds may be left out. Fractions past 100 ns are cut.
/// </summary>
internal static class FhirTime
{
    public static TimeForm Read(ReadOnlySpan<byte> text, out long utcTicks, out short offsetMinutes)
    {
        utcTicks = 0;
        offsetMinutes = 0;
        if (FhirDate.TryRead(text, out _, out _, out _, out _))
        {
            return TimeForm.NoOffset;
        }

        if (text.Length < 16 || text[10] != 'T' || !FhirDate.TryRead(text[..10], out var year, out var month, out var day, out _)
            || !TwoDigits(text, 11, 23, out var hour) || text[13] != ':' || !TwoDigits(text, 14, 59, out var minute))
        {
            return TimeForm.Unreadable;
        }

        var at = 16;
        var ticks = new DateTime(year, month, day, hour, minute, 0, DateTimeKind.Utc).Ticks;
        if (at < text.Length && text[at] == ':')
        {
            // R4 allows 60 for a leap second; it counts as the next second.
            if (!TwoDigits(text, at + 1, 60, out var second))
            {
                return TimeForm.Unreadable;
            }

            at += 3;
            ticks += second * TimeSpan.TicksPerSecond;
            if (at < text.Length && text[at] == '.' && !TryFraction(text, ref at, ref ticks))
            {
                return TimeForm.Unreadable;
            }
        }

        return Zone(text[at..], ref ticks, out offsetMinutes, ref utcTicks);
    }

    private static TimeForm Zone(ReadOnlySpan<byte> zone, ref long ticks, out short offsetMinutes, ref long utcTicks)
    {
        offsetMinutes = 0;
        if (zone.IsEmpty)
        {
            return TimeForm.NoOffset;
        }

        if (!(zone.Length == 1 && zone[0] == 'Z'))
        {
            if (zone.Length != 6 || zone[0] is not ((byte)'+' or (byte)'-') || zone[3] != ':'
                || !TwoDigits(zone, 1, 14, out var hours) || !TwoDigits(zone, 4, 59, out var minutes) || (hours * 60) + minutes > 840)
            {
                return TimeForm.Unreadable;
            }

            offsetMinutes = (short)(((hours * 60) + minutes) * (zone[0] == '-' ? -1 : 1));
        }

        ticks -= offsetMinutes * TimeSpan.TicksPerMinute;
        if (ticks < DateTime.MinValue.Ticks || ticks > DateTime.MaxValue.Ticks)
        {
            return TimeForm.Unreadable;
        }

        utcTicks = ticks;
        return TimeForm.Exact;
    }

    private static bool TryFraction(ReadOnlySpan<byte> text, ref int at, ref long ticks)
    {
        var start = ++at;
        var worth = TimeSpan.TicksPerSecond / 10;
        for (; at < text.Length && text[at] is >= (byte)'0' and <= (byte)'9'; at++, worth /= 10)
        {
            ticks += (text[at] - '0') * worth;
        }

        return at > start;
    }

    private static bool TwoDigits(ReadOnlySpan<byte> text, int at, int most, out int number)
    {
        number = -1;
        if (at + 2 > text.Length || text[at] is < (byte)'0' or > (byte)'9' || text[at + 1] is < (byte)'0' or > (byte)'9')
        {
            return false;
        }

        number = ((text[at] - '0') * 10) + text[at + 1] - '0';
        return number <= most;
    }
}
