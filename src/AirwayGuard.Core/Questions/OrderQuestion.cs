using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Core.Questions;

/// <summary>
/// What is asked of an order before it is signed: the rules that judge orders, and what of a stay they read, as their measures declare it.
/// What only lies in the order itself is not looked for in the stay.
/// </summary>
/// <param name="Rules">The same rules, judging orders and the airways they are meant for, and nothing else.</param>
/// <param name="Always">Concepts that hold until charted otherwise: the airway in use, who the patient is, circumstances. Read in full for <see cref="SaysAgain"/>, before that what was charted last.</param>
/// <param name="Recent">Concepts of which only the last <paramref name="LooksBack"/> counts.</param>
public sealed record OrderQuestion(RuleSet Rules, ImmutableArray<Concept> Always, ImmutableArray<Concept> Recent, TimeSpan LooksBack)
{
    private const long Step = 10 * TimeSpan.TicksPerMinute;

    private static readonly TimeSpan OfAStay = TimeSpan.FromDays(30);

    private static readonly SubjectKind[] Asked = [SubjectKind.Order, SubjectKind.Airway];

    /// <summary>What every judgement of an order needs besides its measures: who it is for, and which airway is in use.</summary>
    private static readonly ImmutableArray<Concept> Basics =
        [.. Ages.Reads, Concepts.AirwayType, Concepts.TubeInnerDiameter, Concepts.EncounterPeriod, Concepts.DeviceKind, Concepts.MetricCategory];

    /// <summary>An order is judged by what it says itself of these; rows of them are of passes.</summary>
    private static readonly ImmutableHashSet<Concept> OfTheOrder =
    [
        Concepts.CatheterSize, Concepts.InsertionDepth, Concepts.DepthTechnique, Concepts.HandTechnique, Concepts.SalineInstilled, Concepts.RegulatorMode, Concepts.SuctionUse,
        Concepts.VacuumSet, Concepts.VacuumPressure, Concepts.SuctionPass,
    ];

    public static OrderQuestion Of(RuleSet rules)
    {
        var asked = rules.Rules
            .Select(rule => rule with { Judges = [.. rule.Judges.Where(kind => Asked.Contains(kind))] })
            .Where(rule => !rule.Judges.IsEmpty)
            .ToImmutableArray();
        var (always, recent, back) = (new HashSet<Concept>(Basics), new HashSet<Concept>(), TimeSpan.Zero);
        foreach (var measure in asked.SelectMany(MeasuresOf))
        {
            var isOfStay = measure.LooksBack >= OfAStay;
            (isOfStay ? always : recent).UnionWith(measure.Reads.Where(concept => IsInput(concept) && !OfTheOrder.Contains(concept)));
            back = !isOfStay && measure.LooksBack > back ? measure.LooksBack : back;
        }

        recent.ExceptWith(always);
        return new OrderQuestion(rules with { Rules = asked }, Sorted(always), Sorted(recent), back);
    }

    /// <summary>What to load for it: at most ten minutes more than it needs at either end, so that questions moments apart need the same.</summary>
    /// <param name="earliest">When the earliest of the orders was written, UTC ticks; what lies before it counts too.</param>
    public QuestionScope ScopeAt(long earliest, long now)
    {
        var from = Math.Min(earliest, now);
        return new(Always, Recent, new TimeRange(Before(from - LooksBack.Ticks), Before(now) + Step)) { Since = Before(from - SaysAgain.Ticks) };
    }

    /// <summary>How far back what is charted again and again is read in full; before that only what was charted last counts. Days to weeks; default 10 days.</summary>
    public TimeSpan SaysAgain { get; init; } = TimeSpan.FromDays(10);

    private static long Before(long ticks) => ticks - (ticks % Step);

    private static IEnumerable<Measure> MeasuresOf(Rule rule) =>
        rule.Criteria.Select(static criterion => criterion.Measure)
            .Concat(rule.Unless.Select(static guard => guard.Measure))
            .Concat(rule.Tighten.SelectMany(static circumstance => circumstance.When).Select(static guard => guard.Measure));

    private static bool IsInput(Concept concept) => Concepts.Info(concept).IsInput || Basics.Contains(concept);

    private static ImmutableArray<Concept> Sorted(IEnumerable<Concept> concepts) => [.. concepts.OrderBy(static concept => concept.Index)];
}
