using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.SignOffs;
using AirwayGuard.Rules;

namespace AirwayGuard.Worker.SignOffs;

/// <summary>The rule set in force, as the ledger has it.</summary>
/// <param name="Set">Null where the ledger's document of it cannot be read by this program.</param>
/// <param name="IsSigned">A person put it in force; else it is the one that the settings name.</param>
public sealed record RulesInForce(RuleSet? Set, RuleDocument? Document, SignedOff SignedOff, bool IsSigned)
{
    /// <param name="configured">What is in force where nothing was ever promoted.</param>
    public static async ValueTask<RulesInForce> OfAsync(ILedger ledger, RuleSet configured, RuleDocument? document, CancellationToken stop)
    {
        var acts = await ledger.SignOffsAsync(stop);
        var sets = SetsInForce.Of(acts);
        if (sets.IsEmpty)
        {
            return new RulesInForce(configured, document, SignedOff.None, false);
        }

        var kept = await ledger.RulesAsync(sets[^1], stop);
        var set = kept is null ? null : Read(kept);
        return new RulesInForce(set, kept, SignedOff.Of(acts, sets[^1]), true);
    }

    public static async ValueTask<RuleSet?> ReadAsync(ILedger ledger, string sha256, CancellationToken stop) =>
        await ledger.RulesAsync(sha256, stop) is { } kept ? Read(kept) : null;

    private static RuleSet? Read(RuleDocument kept) => RuleSetReader.Read(kept.Utf8, "ledger").RuleSet;
}
