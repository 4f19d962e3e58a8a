using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Worker.Questions;

/// <summary>Judges drafted orders by one rule set. Keeps its working memory from question to question; not for concurrent use.</summary>
internal sealed class OrderJudge : IEntityNames
{
    private readonly PatientJudge _judge;
    private QuestionChart? _names;

    public OrderJudge(RuleSet rules) => (Rules, _judge) = (rules, new PatientJudge(rules, this));

    public RuleSet Rules { get; }

    /// <inheritdoc />
    string IEntityNames.NameOf(Entity entity) => _names!.NameOf(entity);

    /// <inheritdoc />
    string IEntityNames.IdentityOf(Entity entity) => _names!.IdentityOf(entity);

    /// <summary>Judges what is laid over a stay, as of a time; what is missing is judged at once, since the order is signed now.</summary>
    /// <param name="drafts">The drafts' own entities.</param>
    public OrderVerdicts Judge(QuestionChart chart, HashSet<Entity> drafts, DateTimeOffset now, UnknownAge unknownAge)
    {
        _names = chart;
        using var lease = chart.Load();
        var timeline = Begun.At(lease.View, now.UtcTicks, out _);
        var derived = _judge.Judge(timeline, new JudgeSettings(now.UtcTicks, WaitsAreOver: true, unknownAge));
        // Nothing of a patient stays with it until the next question.
        _names = null;
        var breaches = ImmutableArray.CreateBuilder<OrderBreach>();
        foreach (var finding in derived.Findings)
        {
            // What stood on an airway before, or was ended since, is no matter of the order as it is signed.
            foreach (var occurrence in finding.Occurrences.Where(one => finding.State == FindingState.Open && !one.Withheld && !one.IsSuperseded))
            {
                var about = About(occurrence, drafts);
                if (about.Length > 0 || occurrence.Kind == SubjectKind.Airway)
                {
                    breaches.Add(new OrderBreach(finding.Rule, occurrence, about.Length > 0 ? about : [.. drafts], FactsOf(timeline, occurrence)));
                }
            }
        }

        return new OrderVerdicts(breaches.ToImmutable(), [.. derived.CannotTell.Where(one => one.About.Any(drafts.Contains))]);
    }

    private static ImmutableArray<Entity> About(Occurrence occurrence, HashSet<Entity> drafts) =>
        [.. occurrence.Anchors.Select(static anchor => anchor.Row).Concat(occurrence.Evidence.Select(static item => item.Row)).Where(drafts.Contains).Distinct()];

    private static ImmutableArray<Fact> FactsOf(in Timeline timeline, Occurrence occurrence)
    {
        var facts = ImmutableArray.CreateBuilder<Fact>();
        foreach (var item in occurrence.RestsOn.Distinct())
        {
            foreach (ref readonly var fact in timeline.Facts)
            {
                if (fact.Id == item.Fact)
                {
                    facts.Add(fact);
                    break;
                }
            }
        }

        return facts.ToImmutable();
    }
}
