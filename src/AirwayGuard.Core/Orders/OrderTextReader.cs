namespace AirwayGuard.Core.Orders;

/// <summary>
/// Reads orders of airway suction written in words. Deterministic: a table of words, numbers with their units and bounds, and for each what
/// it is said of. Every value points at its characters; what is not understood is not guessed, and numbers of suction that were not
/// read are named. Time grows with the length of the text.
/// </summary>
public static class OrderTextReader
{
    /// <summary>Its words name suction of the airway, whether or not they can be read.</summary>
    public static bool NamesAirwaySuction(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return Read(HidesOrder(text) ? string.Concat(text.Where(c => c is not ('\u202D' or '\u202E'))) : text).Parts.Count > 0;
    }

    /// <param name="text">As written.</param>
    /// <param name="isAirwaySuction">The order is known by its code to be one of airway suction, whatever its text names.</param>
    public static OrderText Read(string text, bool isAirwaySuction = false)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (HidesOrder(text))
        {
            // An override shows 021 as 120: what is seen is not what stands there. Other marks of the way of writing leave numbers as they are.
            var whole = new TextSpan(0, text.Length);
            return new OrderText([], [whole], [], 0);
        }

        var work = new OrderTextWork(text, isAirwaySuction);
        SizeMentions.Find(work);
        TimingMentions.Find(work);
        AnswerMentions.Find(work);
        ForbiddingMentions.Find(work);
        Leftovers.Find(work);
        var parts = Parts(work, text.Length, isAirwaySuction);
        var unread = parts.Count > 0 ? [] : work.Unread.Select(one => one.Span).ToList();
        return new OrderText(parts, unread, ErrorProneForms.Of(text, work.Pieces, work.Amounts), work.Steps);
    }

    private static bool HidesOrder(string text) => text.AsSpan().IndexOfAnyInRange('\u202D', '\u202E') >= 0;

    private static List<OrderPart> Parts(OrderTextWork work, int length, bool isAirwaySuction)
    {
        if (!isAirwaySuction && !(work.Layout.SpeaksOfAirway && (work.Layout.ActsOnAirway.Contains(true) || work.Mentions.Count > 0)))
        {
            // What supersedes another order, and how, is no text to read; that it is of suction is said.
            return work.SupersedesSuction ? [new OrderPart { Unread = [new TextSpan(0, length)] }] : [];
        }

        return [.. Sections.Of(work).Select(section => PartBuilder.Build(section, work))];
    }
}
