using System.Collections.Immutable;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Reading;

/// <summary>Reads one rule. Where something is faulty it reads on, so that every fault of the document is found at once.</summary>
internal sealed class RuleReader
{
    private readonly Faults _faults;
    private readonly CriterionReader _criteria;
    private readonly GuardReader _guards;
    private readonly TightenReader _tighten;
    private readonly AllowReader _allow;

    public RuleReader(Faults faults, IReadOnlySet<string> sources)
    {
        var limits = new LimitReader(faults, sources);
        _faults = faults;
        _criteria = new CriterionReader(faults, limits);
        _guards = new GuardReader(faults, limits);
        _tighten = new TightenReader(faults, limits, _guards);
        _allow = new AllowReader(faults, limits);
    }

    /// <summary>The rule with the places of what only the whole document can check; null where it is no map.</summary>
    public (Rule Rule, Place Id, Place WithheldBy, bool SaysMode)? Read(Node node)
    {
        if (Keys.Of(node, _faults, "A rule", DocumentKeys.Rule) is not { } keys)
        {
            return null;
        }

        var id = keys.TryRequiredText("id", "A rule", out var idText) ? idText.Text : "";
        if (idText is not null)
        {
            KebabId.Check(id, idText.At, _faults);
        }

        var judges = Judges(keys);
        var before = _faults.Count;
        var criteria = _criteria.Read(keys, judges);
        // Nothing is held against limits that are faulty themselves: one slip is told once.
        var sound = _faults.Count == before;
        var hasValue = Placeholders.HaveValue(criteria);
        var withheldBy = keys.TryText("withheldBy", out var withholding) ? withholding.Text : "";
        var tighten = _tighten.Read(keys, judges, criteria, sound);
        var unlessHolds = keys.Find("unless") is { } unless ? _guards.Read(unless, judges) : [];
        if (_faults.Count == before)
        {
            Reach.Check(keys, criteria, tighten, unlessHolds, _faults);
        }

        var rule = new Rule(
            id,
            judges,
            criteria,
            tighten,
            _allow.Read(keys, criteria, sound),
            unlessHolds,
            withheldBy,
            keys.Word("needsAge", Words.YesNo, Codes.RuleSetShapeWrong, fallback: false),
            keys.Word("stands", Words.Standings, Codes.StandsUnknown, Standing.Once),
            Span.Read(keys, "waits", Rule.DefaultWait, Span.MostWait, _faults),
            Span.Read(keys, "holds", TimeSpan.Zero, Span.MostHold, _faults),
            ModeOf(keys),
            Sentence(keys, "say", hasValue),
            Sentence(keys, "do", hasValue),
            keys.TryRequiredText("clears", "A rule", out var clears) ? clears.Text.Trim() : "")
        {
            Title = keys.TryText("title", out var title) ? OneLine(title.Text) : "",
            SayInstead = SayInstead(keys, criteria, hasValue),
        };
        return (rule, idText?.At ?? keys.At, withholding?.At ?? keys.At, keys.Has("mode"));
    }

    private ImmutableArray<SubjectKind> Judges(Keys keys)
    {
        if (keys.Required("judges", "A rule") is not { } node)
        {
            return [];
        }

        var kinds = new List<SubjectKind>();
        foreach (var item in keys.Items(node, "judges"))
        {
            if (item is not TextNode text)
            {
                _faults.Add(Codes.RuleSetShapeWrong, item.At, $"A kind of subject is {item.Shape}.", Words.Listed(Words.Subjects));
            }
            else if (!Words.TryFind(Words.Subjects, text.Text, out var kind))
            {
                var near = Words.DidYouMean(text.Text, Words.Subjects.Select(row => row.Word));
                _faults.Add(Codes.JudgesUnknown, text.At, $"The rule judges {Words.Quote(text.Text)}.{near}", Words.Listed(Words.Subjects));
            }
            else
            {
                kinds.Add(kind);
            }
        }

        return [.. kinds.Distinct()];
    }

    /// <summary><c>live</c>, <c>silent</c>, or either as <c>{ default: … }</c>.</summary>
    private Mode ModeOf(Keys keys)
    {
        if (keys.Find("mode") is { Value: MapNode map })
        {
            return Keys.Of(map, _faults, "mode", DocumentKeys.Mode) is { } inner && inner.Required("default", "mode") is not null
                ? inner.Word("default", Words.Modes, Codes.RuleModeUnknown, Mode.Silent)
                : Mode.Silent;
        }

        return keys.Word("mode", Words.Modes, Codes.RuleModeUnknown, Mode.Silent);
    }

    /// <summary>Sentences for single codes of the measures, and one for what is charted and does not count where the rule is about something missing.</summary>
    private ImmutableArray<(string When, string Say)> SayInstead(Keys keys, ImmutableArray<Criterion> criteria, bool hasValue)
    {
        ImmutableArray<string> known = [
            .. criteria.SelectMany(criterion => criterion.Measure.Codes),
            .. criteria.Any(criterion => criterion.Measure.MayBeMissing) ? (string[])[Rule.Charted] : []];
        if (keys.Find("sayInstead") is not { } entry || Keys.Of(entry.Value, _faults, "sayInstead", known) is not { } inner)
        {
            return [];
        }

        return [.. known.Distinct(StringComparer.Ordinal).Where(inner.Has).Select(when => (when, Sentence(inner, when, hasValue)))];
    }

    private string Sentence(Keys keys, string key, bool hasValue)
    {
        if (!keys.TryRequiredText(key, "A rule", out var text))
        {
            return "";
        }

        Placeholders.Check(text, key, hasValue, _faults);
        return text.Text.Trim();
    }

    private static string OneLine(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
