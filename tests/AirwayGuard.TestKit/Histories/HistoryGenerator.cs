namespace AirwayGuard.TestKit.Histories;

/// <summary>
/// Makes random histories that sit on the edges of what is promised: limits hit exactly, windows entered at their last second, bands at
/// their last day. The same seed makes the same history; print it when one fails.
/// </summary>
public static class HistoryGenerator
{
    /// <param name="patient">Id of the patient; every other id begins with it, so that two patients share none but named things.</param>
    public static History Next(int seed, string patient = "p1") => new HistoryChart(new Random(seed), patient).Draw();
}
