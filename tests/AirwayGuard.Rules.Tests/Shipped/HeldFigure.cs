using System.Globalization;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Rules.Tests.Shipped;

/// <summary>One limit of a shipped set in one band, or one reason that lets a check pass.</summary>
/// <param name="Breach">As the table of limits prints one, without source and status.</param>
public sealed record HeldFigure(string Set, string Check, string Measure, char Band, string Breach, string Source, SourceStatus Status)
{
    private static readonly (AgeBand Band, char Letter)[] Bands = [(AgeBand.Neonate, 'N'), (AgeBand.Infant, 'I'), (AgeBand.Child, 'C'), (AgeBand.Adult, 'A')];

    /// <summary>Whatever a set holds: criteria, what tightens them, reasons with and without a limit.</summary>
    public static IEnumerable<HeldFigure> Of(RuleSet set) => set.Rules.SelectMany(rule =>
        rule.Criteria.SelectMany(criterion => InBands(set, rule, criterion.Measure.Id, criterion.Limits))
            .Concat(rule.Tighten.SelectMany(circumstance => InBands(set, rule, rule.Criteria[0].Measure.Id, circumstance.Limits)))
            .Concat(rule.Allow.SelectMany(allowance => allowance.Limits is { } looser
                ? InBands(set, rule, Reason(rule, allowance), looser)
                : Bands.Select(band => new HeldFigure(set.Name, rule.Id, Reason(rule, allowance), band.Letter, "Missing", allowance.Source, allowance.Status)))));

    private static string Reason(Rule rule, Allowance allowance) => $"{allowance.Reason} with {rule.Criteria[0].Measure.Id}";

    private static IEnumerable<HeldFigure> InBands(RuleSet set, Rule rule, string measure, BandLimits limits) =>
        from band in Bands
        let limit = limits.For(band.Band)
        where limit is not null
        select new HeldFigure(set.Name, rule.Id, measure, band.Letter, Print(limit), limit.Source, limit.Status);

    /// <summary>What breaches, as the table of limits prints it.</summary>
    public static string Print(Limit limit) => limit.Comparison + limit.Comparison switch
    {
        Comparison.Missing => "",
        Comparison.Is or Comparison.IsNot => $" {limit.Code}",
        Comparison.Outside => $" {Number(limit.Low)} to {Number(limit.High)} {Units.Ucum(limit.Unit)}",
        _ => $" {Number(limit.Low)} {Units.Ucum(limit.Unit)}",
    };

    private static string Number(decimal number) => number.ToString(CultureInfo.InvariantCulture);
}
