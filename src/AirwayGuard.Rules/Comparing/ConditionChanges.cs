using AirwayGuard.Core.Judging;
using AirwayGuard.Rules.Reading;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules.Comparing;

/// <summary>When a check judges, waits and speaks, and on what its Flag stands.</summary>
internal static class ConditionChanges
{
    private const string Silent = "silent (judged and recorded, nothing leaves the service)";

    public static IEnumerable<Change> Of(Side from, Side to)
    {
        var (was, now) = (from.Rule, to.Rule);
        var name = ClinicalWords.Capital(CheckNames.Of(now));
        return new[]
        {
            One(Aspects.Judges, name, "what is judged", Judges(was), Judges(now), Judged(was, now)),
            One(Aspects.Mode, name, "mode", Mode(was), Mode(now), now.Mode == Core.Judging.Mode.Live ? Direction.Stricter : Direction.Looser),
            One(Aspects.Stands, name, "Flag on", Stands(was), Stands(now),
                was.Stands == Standing.Once ? Direction.Stricter : now.Stands == Standing.Once ? Direction.Looser : Direction.Neither),
            One(Aspects.Waits, name, "wait for late charting", ClinicalWords.Span(was.Waits), ClinicalWords.Span(now.Waits), Longer(was.Waits, now.Waits)),
            One(Aspects.Holds, name, "time a streamed setting must have stood", ClinicalWords.Span(was.Holds), ClinicalWords.Span(now.Holds), Longer(was.Holds, now.Holds)),
            One(Aspects.WithheldBy, name, "said already by", Withheld(was), Withheld(now),
                was.WithheldBy.Length == 0 ? Direction.Looser : now.WithheldBy.Length == 0 ? Direction.Stricter : Direction.Neither),
            One(Aspects.NeedsAge, name, "needs an age, and cannot tell without one", YesNo(was.NeedsAge), YesNo(now.NeedsAge), now.NeedsAge ? Direction.Looser : Direction.Stricter),
        }.OfType<Change>();
    }

    /// <summary>In words, whether anything of it leaves the service.</summary>
    public static string Mode(Rule rule) => rule.Mode == Core.Judging.Mode.Live ? "live" : Silent;

    private static Change? One(string aspect, string name, string what, string was, string now, Direction direction) =>
        was == now ? null : new Change(aspect, [], $"{name}, {what}: {was} becomes {now}", direction, was, now);

    private static string Judges(Rule rule) => ClinicalWords.Listed([.. rule.Judges.Order().Select(kind => ClinicalWords.Code(Words.Of(Words.Subjects, kind)))]);

    private static Direction Judged(Rule was, Rule now) =>
        was.Judges.All(now.Judges.Contains) ? Direction.Stricter : now.Judges.All(was.Judges.Contains) ? Direction.Looser : Direction.Neither;

    private static string Stands(Rule rule) => rule.Stands == Standing.Once ? "nothing" : $"the {Words.Of(Words.Standings, rule.Stands)}";

    private static string Withheld(Rule rule) => rule.WithheldBy.Length == 0 ? "no other check" : CheckNames.OfId(rule.WithheldBy);

    private static Direction Longer(TimeSpan was, TimeSpan now) => now > was ? Direction.Looser : Direction.Stricter;

    private static string YesNo(bool so) => so ? "yes" : "no";
}
