using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Orders;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.CdsHooks;
using AirwayGuard.Worker.Judging;

namespace AirwayGuard.Worker.Questions;

/// <summary>Puts what was judged into the words of a card. Nothing in one is an order, and none is an alarm.</summary>
/// <param name="upTo">Up to when the charting is known; null where it came with the question.</param>
internal sealed class CardWriter(RuleSet rules, QuestionChart chart, IChartedText texts, PolicyLabel policy, DateTimeOffset now, DateTimeOffset? upTo)
{
    private readonly CardFoot _foot = new(rules, policy, now, upTo);

    public async ValueTask<Card> BreachAsync(Guid id, OrderBreach breach, IEnumerable<CardSuggestion> suggestions, CancellationToken stop)
    {
        var (rule, occurrence) = (breach.Rule, breach.Occurrence);
        var detail = new CardLines();
        if (await ChartedAsync(occurrence.Charted, stop) is { } charted)
        {
            detail.Add("As written", charted.Words);
            detail.Add("Stands in the order's text, to be changed there", charted.Place);
        }

        detail.Add("Order", string.Join(", ", breach.About.Select(chart.NameOf)));
        detail.Add(occurrence.Limit.Comparison is Comparison.Is or Comparison.IsNot or Comparison.Missing ? "The policy rests on" : "The policy's limit", LimitOf(occurrence));
        detail.AddAll("Compared with", breach.Facts.Where(fact => !breach.About.Contains(fact.About)).Select(Words));
        detail.Add("What would make it safe", BeforeSigning(Wording.Do(rule, occurrence)));
        _foot.AddTo(detail);
        return new Card(
            id, CardText.Summary(Wording.Say(rule, occurrence)), occurrence.Severity == Severity.Low ? CardIndicator.Info : CardIndicator.Warning, detail.ToString(),
            _foot.SourceOf(rule.Id), [.. suggestions], OfferedReasons.All);
    }

    /// <summary>What could not be judged, in one card: a missing value is never a pass.</summary>
    public Card NotJudged(Guid id, IReadOnlyList<DerivedCannotTell> open, IReadOnlyList<AskedOrder> unread)
    {
        var missing = open.SelectMany(static one => one.Missing).Distinct().Select(MissingWords.Of).ToList();
        var detail = new CardLines();
        detail.AddAll("What is lacking", open.Select(one => $"to judge {CheckTitles.Of(one.Rule.Id)}: {string.Join(", ", one.Missing.Select(MissingWords.Of))} ({string.Join(", ", one.About.Select(chart.NameOf))})"));
        detail.AddAll("Not read", unread.SelectMany(order => order.Read.Reading.Problems.Select(problem => $"{order.Draft.Where}: {problem.Code.Id} {problem.Code.Title}")).Distinct(StringComparer.Ordinal));
        detail.Add("What would make it judged", "Chart what is missing, or change the order so that it says it; then it is judged anew.");
        _foot.AddTo(detail);
        var summary = missing.Count > 0 ? $"Not judged by the suction policy for want of: {string.Join(", ", missing)}." : "Not judged by the suction policy: the order could not be read.";
        return new Card(id, CardText.Short(summary), CardIndicator.Info, detail.ToString(), _foot.SourceOf(null), [], []);
    }

    private async ValueTask<(string Words, string? Place)?> ChartedAsync(EvidenceItem? item, CancellationToken stop) =>
        item is { } charted && await chart.ArrivalAsync(charted.Fact.Arrival, stop) is { } arrival
        && texts.ValueOf(arrival.Body.Span, charted.Fact.Ordinal) is { Length: > 0 } words
            ? (words, TextOrdinal.PartOf(charted.Fact.Ordinal) >= 0 ? texts.PlaceOf(arrival.Body.Span, charted.Fact.Ordinal) : null)
            : null;

    private string LimitOf(Occurrence occurrence)
    {
        var limit = occurrence.Limit;
        var band = occurrence.Band == AgeBand.Unknown ? "" : $" for the age band {Wording.Band(occurrence.Band)}";
        var source = LimitSource.Of(rules, limit);
        return limit.Comparison is Comparison.Is or Comparison.IsNot or Comparison.Missing ? source : $"{Wording.Limit(limit)} is a breach{band}; source: {source}";
    }

    // What clears a finding is charted later; of a draft it is not asked.
    private static string BeforeSigning(string asks)
    {
        var clears = asks.IndexOf(" Clears when ", StringComparison.Ordinal);
        return (clears < 0 ? asks : asks[..clears]) + " Change the order before it is signed, or give a reason.";
    }

    /// <summary>What is told in no card of its own.</summary>
    public Card More(Guid id, IReadOnlyList<OrderBreach> more)
    {
        var detail = new CardLines();
        detail.AddAll("Breached too", more.GroupBy(static one => one.Rule.Id, StringComparer.Ordinal).Select(static same => string.Create(CultureInfo.InvariantCulture, $"{CheckTitles.Of(same.Key)}: {same.Count()}")));
        _foot.AddTo(detail);
        return new Card(id, string.Create(CultureInfo.InvariantCulture, $"{more.Count} more breaches of the suction policy by these orders."), CardIndicator.Warning, detail.ToString(), _foot.SourceOf(null), [], []);
    }

    private string Words(Fact fact)
    {
        var when = fact.Has(FactMarks.Timeless) || fact.EffectiveFrom == long.MinValue ? "" : $", {CardFoot.At(new DateTimeOffset(fact.EffectiveFrom, TimeSpan.Zero))}";
        return $"{fact.Concept.Code.Replace('-', ' ')} {FactWords.Of(fact.Value)}{when} ({chart.NameOf(fact.Row)})";
    }
}
