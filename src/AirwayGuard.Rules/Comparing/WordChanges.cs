using AirwayGuard.Core.Judging;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules.Comparing;

/// <summary>What people read of a check.</summary>
internal static class WordChanges
{
    public static IEnumerable<Change> Of(Side from, Side to)
    {
        var (was, now) = (from.Rule, to.Rule);
        var name = ClinicalWords.Capital(CheckNames.Of(now));
        return new[]
        {
            Renamed(name, CheckNames.Of(was), CheckNames.Of(now)),
            One(Aspects.Say, name, "what it says", was.Say, now.Say),
        }
        .Concat(was.SayInstead.Concat(now.SayInstead).Select(one => one.When).Distinct(StringComparer.Ordinal).Select(
            when => One(Aspects.SayInstead, name, $"what it says where {When(when)}", Instead(was, when), Instead(now, when))))
        .Append(One(Aspects.Do, name, "what the policy asks", was.Do, now.Do))
        .Append(One(Aspects.Clears, name, "what ends it", was.ClearedBy, now.ClearedBy))
        .OfType<Change>();
    }

    private static Change? Renamed(string name, string was, string now) =>
        was == now ? null : new Change(Aspects.Title, [], $"{name}, its name: {was} becomes {now}", Direction.Neither, was, now);

    private static Change? One(string aspect, string name, string what, string was, string now) =>
        was == now ? null : new Change(aspect, [], $"{name}, {what}: worded anew", Direction.Neither, was, now);

    private static string Instead(Rule rule, string when) => rule.SayInstead.FirstOrDefault(one => one.When == when).Say ?? "the same as otherwise";

    private static string When(string when) => when == Rule.Charted ? "something is charted that does not count" : $"it is {ClinicalWords.Code(when)}";
}
