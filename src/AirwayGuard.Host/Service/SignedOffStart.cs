using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.SignOffs;
using AirwayGuard.Worker.Judging;
using AirwayGuard.Worker.SignOffs;

namespace AirwayGuard.Host.Service;

/// <summary>Puts in force what named persons signed off, at the start and whenever they sign off anew.</summary>
internal static class SignedOffStart
{
    private const string OfTheDemo = "The demo's ward is invented: it speaks unasked.";
    private const string OfTheSettings = "AirwayGuard:Mode is live in the settings.";

    /// <returns>Null with what is wrong where the rule set in force cannot be read.</returns>
    public static async ValueTask<(BasisInForce? Basis, Problem? Problem)> BeginAsync(ILedger ledger, ServicePlan plan, TimeProvider clock, CancellationToken stop)
    {
        SignOffMail.In(plan.DataFolder).Open();
        var acts = await ledger.SignOffsAsync(stop);
        var rules = plan.Basis.Rules;
        var promotes = plan.IsDemo ? plan.Options.Mode != "silent" : plan.Options.Mode == "live";
        if (promotes && acts.All(static act => act.Reason is OfTheDemo or OfTheSettings) && SetsInForce.Of(acts).LastOrDefault() != rules.Sha256)
        {
            // Whoever may write the settings lets it speak: that stands in the trail like any other promotion. What a person signs by name goes before.
            await ledger.SignOffAsync(
                new SignOff(clock.GetUtcNow(), SignOffAct.Promote, rules.Name, rules.Version, rules.Sha256, [], [], $"account {Account()}", plan.IsDemo ? OfTheDemo : OfTheSettings),
                plan.Basis.Document, stop);
        }

        return await BasisAsync(ledger, plan, stop) is { } basis
            ? (new BasisInForce(basis), null)
            : (null, new Problem(Codes.RulesInForceUnread, "AirwayGuard:DataDirectory", "the ledger's rule set in force cannot be read"));
    }

    /// <summary>What the settings ask for and what was signed off overrules.</summary>
    public static IEnumerable<string> NotesOf(ServicePlan plan, ServiceBasis basis)
    {
        if (basis.Rules.Sha256 != plan.Basis.Rules.Sha256)
        {
            yield return $"AirwayGuard:Rules names {plan.Basis.Rules.Name} {plan.Basis.Rules.Version}, and {basis.Rules.Name} {basis.Rules.Version} is in force, as a person promoted it: the setting changes nothing. See rules signed.";
        }

        if (plan.Options.Mode == "live" && !basis.Speaks)
        {
            yield return "AirwayGuard:Mode is live, and nothing speaks, as a person withdrew it: the setting changes nothing. See rules signed.";
        }
    }

    public static SignOffDesk DeskOf(ILedger ledger, TimeProvider clock) => new(ledger, clock);

    /// <summary>Puts in force what the ledger says by now.</summary>
    public static async ValueTask TakeUpAsync(ILedger ledger, ServicePlan plan, BasisInForce inForce, CancellationToken stop)
    {
        if (await BasisAsync(ledger, plan, stop) is { } basis)
        {
            inForce.Take(basis);
        }
    }

    private static async ValueTask<ServiceBasis?> BasisAsync(ILedger ledger, ServicePlan plan, CancellationToken stop)
    {
        var now = await RulesInForce.OfAsync(ledger, plan.Basis.Rules, plan.Basis.Document, stop);
        return now.Set is { } set ? plan.BasisWith(set, now.Document, now.SignedOff) : null;
    }

    private static string Account() => Environment.UserName is { Length: > 0 } name ? name : "unknown";
}
