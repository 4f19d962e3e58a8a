using AirwayGuard.TestKit.Pipeline;

namespace AirwayGuard.TestKit.Habits;

/// <summary>Every single way in which servers were seen to differ.</summary>
public static class HabitCatalog
{
    /// <summary>As the sandbox is.</summary>
    public static HabitSwitch None { get; } = new("None", static _ => []);

    public static IReadOnlyList<HabitSwitch> Switches { get; } =
    [
        .. Versions(), .. Creating(), .. Paging(), .. Searching(), .. Failing(), .. Telling(),
    ];

    private static IEnumerable<HabitSwitch> Versions() =>
    [
        Of(nameof(UuidVersions), static () => new UuidVersions()),
        Of("StaleVersionIs409", static () => new StaleVersionStatus(409)),
        Of("StaleVersionIs500", static () => new StaleVersionStatus(500)) with { RoundsAStage = 2 },
        Of(nameof(StrongTagsRefused), static () => new StrongTagsRefused()),
        Of("LastModifiedAbsent", static () => new MissingHeaders("Last-Modified")),
        Of("EntityTagAbsent", static () => new MissingHeaders("ETag")),
        Of("EntityTagAndLocationAbsent", static () => new MissingHeaders("ETag", "Location")),
        Of(nameof(UnchangedKeepsVersion), static () => new UnchangedKeepsVersion()),
        Of("VersionReadsNotFound", static () => new VersionReadsAbsent(404)),
        Of("VersionReadsNotAllowed", static () => new VersionReadsAbsent(405)),
        Of(nameof(TypeHistoryAbsent), static () => new TypeHistoryAbsent()),
        Of("TypeHistoryDeclaredAndAbsent", static () => new TypeHistoryAbsent(isDeclared: true)),
        Of(nameof(DeletedIsNotFound), static () => new DeletedIsNotFound()),
        Of("StampsOfWholeSeconds", static () => new StampPrecision(isWholeSeconds: true)),
        Of("StampsOfTicks", static () => new StampPrecision(isWholeSeconds: false)),
    ];

    private static IEnumerable<HabitSwitch> Creating() =>
    [
        Of(nameof(PlainLocation), static () => new PlainLocation()),
        Of("RelativeLocation", static () => new PlainLocation(isRelative: true)),
        Of(nameof(RelativeVersionedLocation), static () => new RelativeVersionedLocation()),
        Of("LocationAbsent", static () => new MissingHeaders("Location")),
        Of("PlainLocationWithoutEntityTag", static () => new PlainLocation(), static () => new MissingHeaders("ETag")),
        Of(nameof(PreferenceIgnored), static () => new PreferenceIgnored()),
        Of(nameof(ChosenIdsRefused), static () => new ChosenIdsRefused()),
        Of(nameof(RacyCreates), static () => new RacyCreates()),
        Of(nameof(ConditionalCreateIgnored), static () => new ConditionalCreateIgnored()) with { Configure = static settings => settings.Sink.SearchBeforeCreate = true },
        Of(nameof(AbsoluteReferences), static () => new AbsoluteReferences()),
        Of("TransactionsPartWritten", static () => new TransactionsPartWritten(saysSo: true)),
        Of("TransactionsPartWrittenUnsaid", static () => new TransactionsPartWritten(saysSo: false)),
    ];

    // Small pages, so that a morning's charting takes several.
    private static IEnumerable<HabitSwitch> Paging() =>
    [
        Of(nameof(NextLinksAbsent), static () => new NextLinksAbsent()) with { Configure = OfTwo },
        Of(nameof(OffsetLinks), static () => new OffsetLinks()) with { Configure = OfTwo },
        Of("RelativeOffsetLinks", static () => new OffsetLinks(isRelative: true)) with { Configure = OfTwo },
        Of(nameof(SnapshotLinks), static () => new SnapshotLinks()) with { Configure = OfTwo },
        Of("CappedPages", static () => new SmallPages(2)),
        Of("CappedPagesWithoutTotal", static () => new TotalAbsent(), static () => new SmallPages(2)),
        Of("DefaultPageOfTwo", static () => new SmallPages(2, onlyByDefault: true)),
        Of("DefaultPageOfTwenty", static () => new SmallPages(20, onlyByDefault: true)),
        Of(nameof(TotalAbsent), static () => new TotalAbsent()) with { Configure = OfTwo },
        Of("TotalAndNextLinksAbsent", static () => new TotalAbsent(), static () => new NextLinksAbsent()) with { Configure = OfTwo },
        Of(nameof(SelfLinkAbsent), static () => new SelfLinkAbsent()) with { Configure = OfTwo },
        new(nameof(BundleTimeAbsent), static clock => [new BundleTimeAbsent(clock)]),
    ];

    private static IEnumerable<HabitSwitch> Searching() =>
    [
        Of(nameof(SearchModeAbsent), static () => new SearchModeAbsent()),
        Of(nameof(TypedReferencesOnly), static () => new TypedReferencesOnly()),
        .. Unknown("_lastUpdated"), .. Unknown("_sort"), .. Unknown("code"), .. Unknown("target"),
        Of("UnknownRefused", static () => new UnknownParameters(UnknownWay.Refuse, "_total", "_summary", "_elements", "_since", "_format", "url", "subtype")),
    ];

    private static IEnumerable<HabitSwitch> Failing() =>
    [
        Of(nameof(PlainTextErrors), static () => new PlainTextErrors()),
        Of(nameof(InvalidOutcomes), static () => new InvalidOutcomes()),
        Of("EmptyErrors", static () => new InvalidOutcomes(isEmpty: true)),
        Of(nameof(Throttling), static () => new Throttling(23)) with { RoundsAStage = 4 },
        Of(nameof(HeadRefused), static () => new HeadRefused()),
        .. Enum.GetValues<MetadataLack>().Select(lack => Of($"MetadataWithout{lack}", () => new MetadataShort(lack))),
    ];

    private static IEnumerable<HabitSwitch> Telling() =>
    [
        Of(nameof(SubscriptionsRefused), static () => new SubscriptionsRefused()),
        Of(nameof(SubscriptionsDormant), static () => new SubscriptionsDormant()),
        Of("SubscriptionsOnlyIfSentActive", static () => new SubscriptionsDormant(unlessSentActive: true)) with { Configure = static settings => settings.Intake.SubscriptionStatus = "active" },
        .. Enum.GetValues<NoticeHabit>().Select(habit => new HabitSwitch($"Notices{habit}", static _ => []) { Notices = habit }),
    ];

    private static IEnumerable<HabitSwitch> Unknown(string parameter) =>
    [
        Of($"Ignores{parameter}", () => new UnknownParameters(UnknownWay.Ignore, parameter)) with { Configure = OfTwo },
        Of($"TellsOfNot{parameter}", () => new UnknownParameters(UnknownWay.Tell, parameter)) with { Configure = OfTwo },
    ];

    private static HabitSwitch Of(string name, params Func<DelegatingHandler>[] make) => new(name, _ => make.Select(one => one()));

    private static void OfTwo(BenchSettings settings) => settings.Intake.PageSize = 2;
}
