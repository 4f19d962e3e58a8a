using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Reading;

/// <summary>Reads <c>allow</c>, the only way to loosen: a charted reason, the bands it holds for, and its source.</summary>
internal sealed class AllowReader(Faults faults, LimitReader limits)
{
    /// <summary>What may be charted as the reason.</summary>
    public static ImmutableArray<string> Reasons => [.. Concepts.Info(Concepts.AllowanceReason).Answers];

    private readonly List<(string Reason, AgeBand Band, Limit? Limit)> _taken = [];

    /// <param name="sound">True where the criteria had no fault, so that an allowance can be held against them.</param>
    public ImmutableArray<Allowance> Read(Keys rule, ImmutableArray<Criterion> criteria, bool sound)
    {
        if (rule.Find("allow") is not { } entry)
        {
            return [];
        }

        _taken.Clear();
        if (entry.Value is ListNode { Items.Count: > 0 } list)
        {
            return [.. list.Items.Select(item => One(item, rule, criteria, sound)).OfType<Allowance>()];
        }

        faults.Add(Codes.RuleSetShapeWrong, entry.Value.At, $"allow is {entry.Value.Shape}.", "Write a list of allowances, each with reason, bands, source and status.");
        return [];
    }

    private Allowance? One(Node item, Keys rule, ImmutableArray<Criterion> criteria, bool sound)
    {
        if (Keys.Of(item, faults, "An allowance", DocumentKeys.Allowance) is not { } keys)
        {
            return null;
        }

        var reason = Reason(keys);
        var bands = Bands(keys);
        var (source, status) = limits.SourceOf(keys);
        if (!keys.Has("limit"))
        {
            if (bands.Length is > 0 and < 4)
            {
                faults.Add(Codes.RuleSetShapeWrong, keys.Find("bands")!.At, "An allowance without a limit names some bands only.", "Give a limit, or write bands: all.");
            }

            CheckCollision(keys, reason, bands, _ => null);
            return new Allowance(reason, null, source, status);
        }

        if (!sound)
        {
            return null;
        }

        if (rule.Has("anyOf") || criteria.Any(criterion => !LimitIsOrdered(criterion)))
        {
            faults.Add(Codes.LimitNeedsOneMeasure, keys.Find("limit")!.At, "An allowance has a limit in a rule with several criteria or without an amount.");
            return null;
        }

        if (criteria is not [var own] || !keys.TryText("limit", out var text))
        {
            return null;
        }

        var comparison = Words.Bands.Select(band => own.Limits.For(band.Value)).OfType<Limit>().First().Comparison;
        if (limits.Value(text, own.Measure, comparison) is not { } limit)
        {
            return null;
        }

        limit = limit with { Source = source, Status = status };
        if (bands.Length > 0 && !bands.Any(band => own.Limits.For(band) is { } strict && LimitOrder.IsStricter(strict, limit)))
        {
            faults.Add(Codes.AllowLoosensNothing, text.At, "No band named has a stricter limit of its own.");
        }

        CheckCollision(keys, reason, bands, _ => limit);
        return new Allowance(reason, new BandLimits([.. Words.Bands.Select(band => bands.Contains(band.Value) && own.Limits.For(band.Value) is not null ? limit : null)]), source, status);
    }

    private static bool LimitIsOrdered(Criterion criterion) =>
        Words.Bands.Select(band => criterion.Limits.For(band.Value)).OfType<Limit>()
            .Any(limit => limit.Comparison is not (Comparison.Is or Comparison.IsNot or Comparison.Missing));

    private string Reason(Keys keys)
    {
        if (!keys.Has("reason"))
        {
            faults.Add(Codes.AllowWithoutReason, keys.At, "An allowance names no reason.");
            return "";
        }

        var known = Reasons;
        if (keys.TryText("reason", out var text) && !known.Contains(text.Text, StringComparer.Ordinal))
        {
            faults.Add(
                Codes.AllowReasonUnknown, text.At, $"The reason is {Words.Quote(text.Text)}.{Words.DidYouMean(text.Text, known)}", Words.Listed(known));
        }

        return text?.Text ?? "";
    }

    private ImmutableArray<AgeBand> Bands(Keys keys)
    {
        if (keys.Required("bands", "An allowance") is not { } node)
        {
            return [];
        }

        var bands = new List<AgeBand>();
        foreach (var item in keys.Items(node, "bands"))
        {
            if (item is TextNode { Text: DocumentKeys.All })
            {
                bands.AddRange(Words.Bands.Select(band => band.Value));
            }
            else if (item is TextNode text && Words.TryFind(Words.Bands, text.Text, out var band))
            {
                bands.Add(band);
            }
            else
            {
                faults.Add(Codes.RuleSetShapeWrong, item.At, "A band is none of the words for bands.", Words.Listed(DocumentKeys.Bands));
            }
        }

        return [.. bands.Distinct()];
    }

    /// <summary>A reason may be given once for a band; two reasons can both be charted, so they must then allow the same.</summary>
    private void CheckCollision(Keys keys, string reason, ImmutableArray<AgeBand> bands, Func<AgeBand, Limit?> limitOf)
    {
        var collides = bands.FirstOrDefault(
            band => _taken.Exists(taken => taken.Band == band && (taken.Reason == reason || !Same(taken.Limit, limitOf(band)))), AgeBand.Unknown);
        if (reason.Length > 0 && collides != AgeBand.Unknown)
        {
            faults.Add(Codes.AllowsCollide, keys.Find("reason")!.At, $"Another allowance already holds for the band {Words.Of(Words.Bands, collides)}.");
        }

        _taken.AddRange(bands.Select(band => (reason, band, limitOf(band))));
    }

    private static bool Same(Limit? one, Limit? other) =>
        one is null || other is null
            ? one is null && other is null
            : !LimitOrder.IsStricter(one, other) && !LimitOrder.IsStricter(other, one);
}
