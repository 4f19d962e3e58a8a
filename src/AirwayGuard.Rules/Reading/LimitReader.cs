using System.Collections.Immutable;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Rules.Reading;

/// <summary>Reads limits: one each for the age bands, with source and status.</summary>
internal sealed class LimitReader(Faults faults, IReadOnlySet<string> sources)
{
    /// <summary>Every band must have a limit or <c>not-judged</c>.</summary>
    /// <param name="measure">Null where the measure is unknown: then the shape is checked and the value is not.</param>
    public BandLimits EveryBand(Entry comparisonKey, Measure? measure, Comparison comparison)
    {
        if (Keys.Of(comparisonKey.Value, faults, comparisonKey.Key, DocumentKeys.Bands) is not { } keys)
        {
            return Empty;
        }

        var limits = Named(keys, measure, comparison);
        foreach (var (word, band) in Words.Bands)
        {
            if (!keys.Has(word) && !keys.Has(DocumentKeys.All))
            {
                faults.Add(Codes.LimitBandMissing, comparisonKey.At, $"The band {word} has no limit.", "Give it a limit, or write not-judged.");
            }
        }

        if (!DocumentKeys.Bands.Any(word => keys.Find(word)?.Value is TextNode { Text: DocumentKeys.SiteSets }) && DocumentKeys.Bands.All(word => !keys.Has(word) || IsNotJudged(keys.Find(word)!.Value)) && DocumentKeys.Bands.Any(keys.Has))
        {
            faults.Add(Codes.NoBandJudged, comparisonKey.At, "No band has a limit.");
        }

        return limits;
    }

    /// <summary>Only the bands named; a limit without bands holds for every band that <paramref name="own"/> judges.</summary>
    public BandLimits BandsNamed(Entry comparisonKey, Measure? measure, Comparison comparison, BandLimits own)
    {
        if (comparisonKey.Value is MapNode map && map.Entries.Any(entry => DocumentKeys.Limit.Contains(entry.Key, StringComparer.Ordinal)))
        {
            var limit = One(map, measure, comparison);
            return new BandLimits([.. Words.Bands.Select(band => own.For(band.Value) is null ? null : limit)]);
        }

        return Keys.Of(comparisonKey.Value, faults, comparisonKey.Key, DocumentKeys.Bands) is { } keys ? Named(keys, measure, comparison) : Empty;
    }

    /// <summary>One limit with its source and status, or null where it is faulty or says not-judged.</summary>
    public Limit? One(Node node, Measure? measure, Comparison comparison)
    {
        if (IsNotJudged(node))
        {
            return null;
        }

        var isMissing = comparison == Comparison.Missing;
        var keys = isMissing
            ? Keys.Of(node, faults, "A limit of missing", DocumentKeys.LimitOfMissing)
            : Keys.Of(node, faults, "A limit", DocumentKeys.Limit);
        if (keys is null)
        {
            return null;
        }

        var (source, status) = SourceOf(keys);
        var value = !isMissing && keys.TryRequiredText("limit", "The limit", out var text) ? Value(text, measure, comparison) : null;
        return isMissing ? new Limit(comparison, 0m, 0m, Unit.None, "", source, status)
            : value is null ? null : value with { Source = source, Status = status };
    }

    /// <summary>A limit's source and status, each a fault where it is missing or not known.</summary>
    public (string Source, SourceStatus Status) SourceOf(Keys keys)
    {
        var source = "";
        if (!keys.Has("source"))
        {
            faults.Add(Codes.LimitSourceMissing, keys.At, "The limit names no source.", sources.Count == 0 ? null : Words.Listed(sources));
        }
        else if (keys.TryText("source", out var text))
        {
            source = text.Text;
            if (!sources.Contains(source))
            {
                faults.Add(
                    Codes.LimitSourceNotListed, text.At, $"The source {Words.Quote(source)} is not listed.{Words.DidYouMean(source, sources)}",
                    sources.Count == 0 ? null : Words.Listed(sources));
            }
        }

        if (!keys.Has("status"))
        {
            faults.Add(Codes.LimitStatusMissing, keys.At, "The limit names no status.", Words.Listed(Words.Statuses));
        }

        return (source, keys.Word("status", Words.Statuses, Codes.LimitStatusUnknown, SourceStatus.FromMemory));
    }

    /// <summary>The compared value alone, without a source; null where it is faulty.</summary>
    public Limit? Value(TextNode text, Measure? measure, Comparison comparison)
    {
        if (measure is null)
        {
            return null;
        }

        if (comparison is Comparison.Is or Comparison.IsNot)
        {
            return Code(text, measure, comparison, Codes.LimitCodeUnknown);
        }

        return Amount.TryRead(text, measure, comparison == Comparison.Outside, faults, out var amount)
            ? new Limit(comparison, amount.Low, amount.High, amount.Unit, "", "", SourceStatus.FromMemory)
            : null;
    }

    /// <summary>One of the measure's codes, or a fault of the given code.</summary>
    public Limit? Code(TextNode text, Measure measure, Comparison comparison, DiagnosticCode code)
    {
        if (measure.Codes.Contains(text.Text, StringComparer.Ordinal))
        {
            return new Limit(comparison, 0m, 0m, Unit.None, text.Text, "", SourceStatus.FromMemory);
        }

        var near = Words.DidYouMean(text.Text, measure.Codes);
        faults.Add(code, text.At, $"{measure.Id} is never {Words.Quote(text.Text)}.{near}", Words.Listed(measure.Codes));
        return null;
    }

    private static BandLimits Empty => new(null, null, null, null);

    private static bool IsNotJudged(Node node) => node is TextNode { Text: DocumentKeys.NotJudged or DocumentKeys.SiteSets };

    private BandLimits Named(Keys keys, Measure? measure, Comparison comparison)
    {
        var all = keys.Find(DocumentKeys.All) is { } entry ? One(entry.Value, measure, comparison) : null;
        var byBand = new Limit?[Words.Bands.Length];
        foreach (var (word, band) in Words.Bands)
        {
            byBand[(int)band] = all;
            if (keys.Find(word) is { } own)
            {
                byBand[(int)band] = One(own.Value, measure, comparison);
                if (keys.Has(DocumentKeys.All))
                {
                    faults.Add(Codes.LimitBandDoubled, own.At, $"The band {word} has a limit beside the one for all.");
                }
            }
        }

        return new BandLimits([.. byBand]);
    }
}
