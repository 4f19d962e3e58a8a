using AirwayGuard.TestKit.Histories;

namespace AirwayGuard.Core.Tests.Properties;

/// <summary>Short ways to tell a history: an adult from 09:00 UTC on 1 March 2026 in one open encounter.</summary>
internal static class Told
{
    public static readonly DateTimeOffset Start = new(2026, 3, 1, 9, 0, 0, TimeSpan.Zero);

    private const string Stay = "e1";

    public static History Adult => Born("1970-05-05");

    public static DateTimeOffset At(int minutes, int seconds = 0) => Start.AddMinutes(minutes).AddSeconds(seconds);

    public static History Born(string? date) => History.Empty("p1", date) with { Stays = [new(Stay, Start, null)] };

    public static ChartRow Row(string concept, DateTimeOffset at, Charted value, string? id = null) =>
        ChartRow.Of(id ?? $"{concept}-{at.UtcTicks}", concept, at, value) with { Stay = Stay };

    public static ChartRow Vacuum(DateTimeOffset at, decimal amount, string? unit = "mm[Hg]", string? method = null, string? comparator = null) =>
        Row("vacuum-pressure", at, new Charted.Number(amount, unit, NumberForm.Ucum, comparator)) with
        {
            Components = method is null ? [] : [("vacuum-reading-method", new Charted.Answer(method))],
        };

    public static ChartRow Mode(DateTimeOffset at, string mode) => Row("regulator-mode", at, new Charted.Answer(mode));

    public static ChartRow YesNo(string concept, DateTimeOffset at, bool value) => Row(concept, at, new Charted.YesNo(value));

    public static ChartRow Number(string concept, DateTimeOffset at, decimal amount, string? unit) => Row(concept, at, new Charted.Number(amount, unit));

    public static ChartRow Answer(string concept, DateTimeOffset at, string code) => Row(concept, at, new Charted.Answer(code));

    /// <summary>A pass by its duration alone.</summary>
    public static ChartRow Pass(DateTimeOffset at, decimal seconds = 8m) => Number("pass-duration", at, seconds, "s");

    public static ReferenceReport Judge(History history, bool strict = true, DateTimeOffset? asOf = null, UnknownAge unknownAge = UnknownAge.CannotTell) =>
        ReferenceJudge.Judge(history, strict ? ReferenceJudge.StrictRanges : ReferenceJudge.Guideline2022, asOf, unknownAge);

    /// <summary>What a check says of a history in one word: pass (or not judged), breach, cannot-tell.</summary>
    public static string Says(this ReferenceReport report, string check) =>
        report.Findings.Any(f => f.Check == check) ? "breach" : report.CannotTell.Any(c => c.Check == check) ? "cannot-tell" : "pass";

    public static IReadOnlyList<ReportedFinding> Of(this ReferenceReport report, string check) => [.. report.Findings.Where(f => f.Check == check)];
}
