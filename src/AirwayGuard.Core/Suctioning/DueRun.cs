using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Suctioning;

/// <summary>Time that runs on a line until something is charted, and that falls due when it runs too long. Times in UTC ticks.</summary>
/// <param name="Since">The instant from which the time runs; with the line it names the finding.</param>
/// <param name="Until">When what was waited for was charted; <see cref="long.MaxValue"/> while nothing was.</param>
/// <param name="NotBefore">It cannot fall due before this; <see cref="long.MinValue"/> where nothing holds it back.</param>
/// <param name="Fact">Index of the fact from which the time runs; −1 for none.</param>
/// <param name="EndedBy">Index of the fact that ended it; −1 for none.</param>
/// <param name="NotAfter">It no longer falls due at or after this. Of several runs with one line and start the first that can fall due counts.</param>
/// <param name="Lacks">What is not charted, so that nobody can tell from when the time runs.</param>
/// <param name="OnlyFrom">What falls due before this is not judged here: another timeline judges it.</param>
/// <param name="Slack">Ticks after it falls due in which nobody can say that it ran longer: it runs from a date without a time.</param>
/// <param name="InSlack">What would tell whether it ran longer while it may have; nothing where it is waited for.</param>
/// <param name="Open">What is not charted, so that nobody can tell whether it falls due at all.</param>
public readonly record struct DueRun(
    Line Line, long Since, long Until, long NotBefore, int Fact, int EndedBy, short OffsetMinutes, Measures.Missing Lacks = Measures.Missing.Nothing,
    long NotAfter = long.MaxValue, long OnlyFrom = long.MinValue, long Slack = 0, Measures.Missing Open = Measures.Missing.Nothing,
    Measures.Missing InSlack = Measures.Missing.Nothing);
