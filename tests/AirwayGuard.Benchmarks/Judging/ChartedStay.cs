using AirwayGuard.Benchmarks.Charting;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Benchmarks.Judging;

/// <summary>A stay to be judged.</summary>
/// <param name="Charting">How it is charted, in a word or two.</param>
/// <param name="Patient">As references name the patient.</param>
/// <param name="Ends">When it is judged.</param>
internal sealed record ChartedStay(string Charting, string Patient, DateTimeOffset Ends, IReadOnlyList<IReadOnlyList<Arrival>> Groups)
{
    private const int Days = 10;

    /// <summary>Passes only, eight rows each: what the first eight checks read.</summary>
    public static ChartedStay OfPasses(bool isQuiet)
    {
        var stay = new Stay(1, isQuiet);
        return new ChartedStay(
            "passes only", stay.Name, Stay.Begins.AddDays(Days + 1),
            [[.. stay.Admission()], .. Enumerable.Range(0, Stay.Sessions).Select(session => (IReadOnlyList<Arrival>)[.. stay.Session(session)])]);
    }

    /// <summary>Everything the checks read of an adult on a ventilator, a thousand rows a day.</summary>
    public static ChartedStay InFull(bool isQuiet)
    {
        var stay = new FullStay(1, new DateTimeOffset(Stay.Begins.Date, Stay.Begins.Offset), Days, 1, isQuiet);
        return new ChartedStay(
            "in full", stay.Name, stay.Begins.AddDays(Days),
            [[.. stay.Admission()], .. Enumerable.Range(0, Days).Select(day => (IReadOnlyList<Arrival>)[.. stay.Day(day)]), [stay.Discharge()]]);
    }
}
