using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Fhir.Intake;

/// <summary>Holds an answer against the question: which conditions the server says it used (R4 search.html#conformance).</summary>
/// <param name="IsTimeLeftOut">The server did not keep to <c>_lastUpdated</c>.</param>
/// <param name="Sifts">The server did not keep to the codes, or does not say.</param>
internal sealed record AnswerCheck(bool IsTimeLeftOut, bool Sifts, IReadOnlyList<Problem> Remarks)
{
    private const string Time = "_lastUpdated";

    public static AnswerCheck Of(SweepQuery query, PageToken token, Uri asked, BundleHead head, IReadOnlyList<Arrival> arrivals)
    {
        var (asksTime, asksCodes) = (asked.Query.Contains(Time + "=ge", StringComparison.Ordinal), query.Codes.Count > 0);
        if (!token.IsOwn || (!asksTime && !asksCodes))
        {
            return new AnswerCheck(false, token.Sifts, []);
        }

        if (head.Self is null)
        {
            var unsaid = new Problem(Codes.SweepUnverified, query.Name, Codes.SweepUnverified.Title);
            return new AnswerCheck(asksTime && IsOlder(asked, arrivals), asksCodes, [unsaid]);
        }

        var isTimeLeftOut = asksTime && !head.Names(Time);
        var areCodesLeftOut = asksCodes && !head.Names(query.CodeName);
        return new AnswerCheck(
            isTimeLeftOut, areCodesLeftOut || token.Sifts,
            [.. LeftOut(query, isTimeLeftOut, Time), .. LeftOut(query, areCodesLeftOut, query.CodeName)]);
    }

    private static IEnumerable<Problem> LeftOut(SweepQuery query, bool isLeftOut, string condition) =>
        isLeftOut ? [new Problem(Codes.SweepNotHonoured, query.Name, $"The server's answer does not name the condition {condition} that it was asked with.")] : [];

    // Servers that keep whole seconds may give back what is up to a second older than asked for.
    private static bool IsOlder(Uri asked, IReadOnlyList<Arrival> arrivals)
    {
        var at = asked.Query.IndexOf(Time + "=ge", StringComparison.Ordinal) + Time.Length + 3;
        var text = Uri.UnescapeDataString(asked.Query[at..].Split('&')[0]);
        return DateTimeOffset.TryParse(text, System.Globalization.CultureInfo.InvariantCulture, out var since)
            && arrivals.Any(arrival => arrival.KnownBy == KnownBy.ServersStamp && arrival.KnownAt < since.AddSeconds(-1));
    }
}
