namespace AirwayGuard.TestKit.Habits;

/// <summary>Four servers, each with all the habits that were seen on one; named for the habit that asks most of a client.</summary>
public static class HabitProfiles
{
    public static IReadOnlyList<HabitSwitch> All { get; } = [NoNextLinks(), RacingCreates(), OpaqueVersions(), TypedReferences()];

    // A: pages are cut and not told, versions cannot be read, Subscriptions by criteria are refused.
    private static HabitSwitch NoNextLinks() => new("NoNextLinks", static _ =>
    [
        new HeadRefused(), new PlainTextErrors(), new DeletedIsNotFound(), new StaleVersionStatus(500), new StrongTagsRefused(), new PlainLocation(),
        new VersionReadsAbsent(404), new TypeHistoryAbsent(), new NextLinksAbsent(), new StampPrecision(isWholeSeconds: false), new SubscriptionsRefused(),
        new MetadataShort(MetadataLack.Interactions), new TransactionsPartWritten(saysSo: true), new UnknownParameters(UnknownWay.Ignore, "url"),
    ])
    { Configure = static settings => settings.Intake.PageSize = 3, RoundsAStage = 2 };

    // B: conditional creates race, errors are no valid outcomes, Subscriptions never fire.
    private static HabitSwitch RacingCreates() => new("RacingCreates", static _ =>
    [
        new HeadRefused(), new InvalidOutcomes(), new MissingHeaders("Last-Modified"), new StaleVersionStatus(409), new PreferenceIgnored(), new RacyCreates(),
        new SnapshotLinks(), new SmallPages(20, onlyByDefault: true), new SearchModeAbsent(), new SubscriptionsDormant(), new TransactionsPartWritten(saysSo: false),
        new UnknownParameters(UnknownWay.Tell, "url"),
    ])
    { Configure = static settings => settings.Intake.PageSize = 3 };

    // C: versions are UUIDs, ids cannot be chosen, nothing says how many there are, too many requests are turned away.
    private static HabitSwitch OpaqueVersions() => new("OpaqueVersions", static _ =>
    [
        new HeadRefused(), new Throttling(29), new UuidVersions(), new PlainLocation(), new ChosenIdsRefused(), new UnchangedKeepsVersion(), new OffsetLinks(), new TotalAbsent(),
        new SmallPages(20, onlyByDefault: true), new UnknownParameters(UnknownWay.Refuse, "url"), new TypeHistoryAbsent(), new SubscriptionsDormant(unlessSentActive: true),
    ])
    { Configure = static settings => (settings.Intake.PageSize, settings.Intake.SubscriptionStatus) = (3, "active"), Notices = NoticeHabit.WithResource, RoundsAStage = 4 };

    // D: references are found by type and id only, and what was deleted is as if it had never been.
    private static HabitSwitch TypedReferences() => new("TypedReferences", static _ =>
    [
        new HeadRefused(), new UuidVersions(), new PlainLocation(), new PreferenceIgnored(), new DeletedIsNotFound(), new TypedReferencesOnly(), new OffsetLinks(),
        new TypeHistoryAbsent(),
    ])
    { Configure = static settings => settings.Intake.PageSize = 3, Notices = NoticeHabit.Repeated };
}
