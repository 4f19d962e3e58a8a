namespace AirwayGuard.TestKit.Histories;

/// <summary>
/// A slow, plain judge of all checks, written from the meanings alone and without the engine: the engine is compared with it. Each step says
/// what it follows; where two readings are open it takes the one <see cref="ReferenceChoices"/> names.
/// </summary>
public static class ReferenceJudge
{
    public const string StrictRanges = "strict-ranges";
    public const string Guideline2022 = "guideline-2022";

    /// <summary>Judges a whole history as <c>check</c> does.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The rule set is neither of the two shipped ones.</exception>
    public static ReferenceReport Judge(
        History history, string ruleSetName, DateTimeOffset? asOf = null, UnknownAge unknownAge = UnknownAge.CannotTell, ReferenceChoices? choices = null)
    {
        ArgumentOutOfRangeException.ThrowIfEqual(ruleSetName is StrictRanges or Guideline2022, false, nameof(ruleSetName));
        var known = new KnownCharting(history, asOf);
        var passes = new Passes(known);
        var checks = new Checks(known, new Airways(known), passes, ruleSetName == StrictRanges, unknownAge, choices ?? new(), new Verdicts(history.Patient));
        var settings = VacuumChecks.Judge(checks);
        SettingComparisons.Judge(checks);
        CuffCheck.Judge(checks);
        RegulatorChecks.Judge(checks);
        DueChecks.Judge(checks);
        OutletChecks.Judge(checks);
        CatheterCheck.Judge(checks);
        AirwayChecks.Judge(checks);
        PassChecks.Judge(checks);
        SessionChecks.Judge(checks);
        OxygenChecks.Judge(checks);
        IndicationCheck.Judge(checks);
        DepthChecks.Judge(checks);
        SalineChecks.Judge(checks);
        SystemChecks.Judge(checks);
        VitalsChecks.Judge(checks);
        BloodCheck.Judge(checks);
        var orders = OrderChecks.Judge(checks);
        return checks.Out.Report(new(passes.All.Count, passes.Sessions.Count, orders, settings));
    }

    /// <summary>The age bands printed for the events of a history, for telling whether a change moved one.</summary>
    public static IEnumerable<string> Bands(History history)
    {
        var known = new KnownCharting(history, null);
        return history.Instants().Select(at => ReferenceAge.Printed(known.Bands(at)));
    }
}
