using System.Collections.Immutable;
using System.Text;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Core.SignOffs;

/// <summary>Which checks of a rule set speak, and where, by the acts of named persons in their order: of those that cover a check the last counts.</summary>
/// <param name="SpeaksUnasked">Without any act all speaks: where nobody is asked, as in a single run over files. In a ledger nothing does.</param>
/// <param name="Acts">On this rule set, oldest first.</param>
public sealed record SignedOff(bool SpeaksUnasked, ImmutableArray<SignOff> Acts)
{
    /// <summary>All speaks.</summary>
    public static readonly SignedOff All = new(true, []);

    /// <summary>Nothing speaks.</summary>
    public static readonly SignedOff None = new(false, []);

    /// <summary>Something is signed off for single units, so that it matters where somebody is.</summary>
    public bool GoesByUnit => Acts.Any(static act => !act.Units.IsEmpty);

    /// <summary>
    /// Of all that was ever done, what counts for one rule set: since it was put in force anew. A set that is promoted again after another
    /// begins afresh, so that a trial in one unit brings nothing back that it once spoke; one that is restored speaks where it spoke.
    /// </summary>
    public static SignedOff Of(IEnumerable<SignOff> all, string sha256)
    {
        var (inForce, counting) = ("", ImmutableArray.CreateBuilder<SignOff>());
        foreach (var act in all)
        {
            if (act.Act == SignOffAct.Promote && act.Sha256 == sha256 && inForce != sha256)
            {
                counting.Clear();
            }

            if (act.Act != SignOffAct.Restore && act.Sha256 == sha256)
            {
                counting.Add(act);
            }

            inForce = act.Act == SignOffAct.Withdraw ? inForce : act.Sha256;
        }

        return new SignedOff(false, counting.ToImmutable());
    }

    /// <summary>Whether a check speaks for somebody at these places; empty where no place is charted.</summary>
    public bool Speaks(string check, IReadOnlyCollection<string> places)
    {
        var speaks = SpeaksUnasked;
        foreach (var act in Acts)
        {
            speaks = act.Covers(check, places) ? act.Act == SignOffAct.Promote : speaks;
        }

        return speaks;
    }

    /// <summary>
    /// The rule set as it speaks for somebody at these places: a check that does not is silent, and withholds nothing from one that speaks,
    /// since then nobody would hear of it. One that its document silences stays so.
    /// </summary>
    public RuleSet At(RuleSet rules, IReadOnlyCollection<string> places)
    {
        var speaking = rules.Rules.Where(rule => rule.Mode == Mode.Live && Speaks(rule.Id, places)).Select(static rule => rule.Id).ToHashSet(StringComparer.Ordinal);
        return rules with
        {
            Rules =
            [
                .. rules.Rules.Select(rule => rule with
                {
                    Mode = speaking.Contains(rule.Id) ? Mode.Live : Mode.Silent,
                    WithheldBy = speaking.Contains(rule.Id) && !speaking.Contains(rule.WithheldBy) ? "" : rule.WithheldBy,
                }),
            ],
        };
    }

    /// <summary>Whether any check of a rule set speaks anywhere.</summary>
    public bool AnySpeaks(RuleSet rules)
    {
        var places = Acts.SelectMany(static act => act.Units).Distinct(StringComparer.Ordinal).Select(static unit => (string[])[unit]).Prepend([]).ToList();
        return rules.Rules.Any(rule => rule.Mode == Mode.Live && places.Exists(place => Speaks(rule.Id, place)));
    }

    /// <summary>What of it decides what speaks, as one text: it is part of the basis that stands on every finding.</summary>
    public string Canonical()
    {
        var text = new StringBuilder(SpeaksUnasked ? "all" : "none");
        foreach (var act in Acts)
        {
            text.Append('|').Append(act.Act == SignOffAct.Promote ? '+' : '-').AppendJoin(',', act.Checks.Order(StringComparer.Ordinal))
                .Append('@').AppendJoin(',', act.Units.Order(StringComparer.Ordinal));
        }

        return text.ToString();
    }
}
