using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Orders;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.CdsHooks;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Worker.Questions;

/// <summary>A changed draft that may be offered, once it was judged.</summary>
/// <param name="Label">E.g. <c>Change to 150 mmHg</c>.</param>
internal sealed record Correction(string Label, string Description, HookResource Draft);

/// <summary>
/// What an order could say instead: one structured element changed and nothing else. An unsafe value in words is a person's to change. None
/// of these is offered before it was judged like the order itself.
/// </summary>
internal static class Corrections
{
    // Sizes in which suction catheters are commonly made (common practice, no source), the largest first: what fits is then the widest that does.
    private static readonly int[] CatheterSizes = [18, 16, 14, 12, 10, 8, 6, 5];

    public static IEnumerable<Correction> Of(OrderBreach breach, IReadOnlyList<AskedOrder> orders)
    {
        var concept = ConceptOf(breach.Rule.Criteria[0].Measure);
        var structured = orders.SelectMany(static order => order.Read.Reading.Facts).Where(fact => fact.Concept == concept && breach.About.Contains(fact.About)).ToList();
        // Said twice, changing one of them would leave the other.
        if (structured is not [var fact] || fact.Id.Ordinal is 0 or >= TextOrdinal.First
            || orders.FirstOrDefault(order => order.Row == fact.Row) is not { Draft: { Type: "DeviceRequest", Id: not null } draft })
        {
            return [];
        }

        if (OrderNarrative.IsThere(draft.Body))
        {
            // It tells the old value in words, and a person signs what can be read.
            return [];
        }

        var parameter = fact.Id.Ordinal - 1;
        return concept == Concepts.OrderVacuumHigh ? Vacuum(breach.Occurrence.Limit, fact, parameter, draft)
            : concept == Concepts.CatheterSize ? Catheter(fact, parameter, draft)
            : concept == Concepts.SuctionSystem ? Coded("closed", "a closed system", parameter, draft)
            : concept == Concepts.DepthTechnique ? Coded("shallow", "shallow suction", parameter, draft)
            : Saline(parameter, draft);
    }

    private static Concept? ConceptOf(Measure measure) =>
        measure == OrderedVacuum.Measure ? Concepts.OrderVacuumHigh
        : measure == CatheterToTubeRatio.Measure ? Concepts.CatheterSize
        : measure == PeepAtOpenSuction.Measure || measure == OxygenAtOpenSuction.Measure ? Concepts.SuctionSystem
        : measure == DepthTechnique.Measure ? Concepts.DepthTechnique
        : measure == SalineGiven.Measure ? Concepts.SalineInstilled
        : null;

    private static IEnumerable<Correction> Vacuum(Limit limit, Fact fact, int parameter, HookResource draft)
    {
        if (limit.Comparison is not (Comparison.Above or Comparison.AtOrAbove) || !Units.IsPressure(limit.Unit) || !Units.IsPressure(fact.Value.Unit))
        {
            yield break;
        }

        // Cut, never rounded up: what is offered lies at the limit or under it.
        var step = fact.Value.Unit == Unit.Kilopascal ? 0.1m : 1m;
        var most = decimal.Floor(Core.Quantities.Vacuum.Convert(limit.Low, limit.Unit, fact.Value.Unit) / step) * step;
        if (most > 0 && OrderEdit.SetNumber(draft.Body, parameter, fact.Has(FactMarks.Negative) ? -most : most) is { } changed)
        {
            var words = Wording.Amount(most, fact.Value.Unit);
            yield return new Correction($"Change the vacuum to {words}", $"Sets the ordered vacuum to {words}, within the policy's limit here; nothing else changes.", draft with { Body = changed });
        }
    }

    private static IEnumerable<Correction> Catheter(Fact fact, int parameter, HookResource draft)
    {
        if (fact.Value is not { IsNumber: true, Unit: Unit.French })
        {
            yield break;
        }

        foreach (var size in CatheterSizes.Where(size => size < fact.Value.Amount))
        {
            if (OrderEdit.SetNumber(draft.Body, parameter, size) is { } changed)
            {
                var words = size.ToString(CultureInfo.InvariantCulture) + " Fr";
                yield return new Correction($"Change the catheter to {words}", $"Sets the catheter to {words}, the largest usual size within the policy here; nothing else changes.", draft with { Body = changed });
            }
        }
    }

    private static IEnumerable<Correction> Coded(string answer, string words, int parameter, HookResource draft)
    {
        if (OrderEdit.SetCoding(draft.Body, parameter, new CardCoding(CodeSystems.AirwayCareAnswer, answer, words)) is { } changed)
        {
            yield return new Correction($"Change to {words}", $"Asks for {words} instead; nothing else changes.", draft with { Body = changed });
        }
    }

    private static IEnumerable<Correction> Saline(int parameter, HookResource draft)
    {
        if (OrderEdit.SetBoolean(draft.Body, parameter, false) is { } changed)
        {
            yield return new Correction("Leave out the saline", "Sets saline to no; nothing else changes.", draft with { Body = changed });
        }
    }
}
