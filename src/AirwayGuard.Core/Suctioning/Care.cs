using System.Runtime.InteropServices;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Core.Suctioning;

/// <summary>
/// What a patient's rows add up to: airways, passes, sessions, settings and orders (docs/meanings.md). Assembled from a timeline
/// by <see cref="CareAssembler"/>; one instance is reused from patient to patient, so that judging allocates nothing per row.
/// </summary>
public sealed class Care
{
    // Said by the pass's panel or Procedure; or only that it was charted at the time of such a pass.
    internal const int OfOtherSuction = -1, AtOtherSuction = -2;

    private readonly Dictionary<Entity, int> _deviceKinds = [];

    internal List<AirwaySpan> AirwayList { get; } = [];

    internal List<EpisodeSpan> EpisodeList { get; } = [];

    internal List<PassSpan> PassList { get; } = [];

    internal List<SessionSpan> SessionList { get; } = [];

    internal List<SettingSpan> SettingList { get; } = [];

    internal List<OrderSpan> OrderList { get; } = [];

    internal List<int> MemberList { get; } = [];

    internal List<int> PassesBySessionList { get; } = [];

    internal List<int> SettingFactList { get; } = [];

    internal List<int> OrderFactList { get; } = [];

    internal List<int> HeldOrderList { get; } = [];

    internal HashSet<int> HeldOfUnknownUse { get; } = [];

    internal List<int> LooseCatheterList { get; } = [];

    internal List<int> OutletRowList { get; } = [];

    internal List<int> CuffRowList { get; } = [];

    internal List<int> SupportRowList { get; } = [];

    internal List<AirwayNeed> AirwayNeedList { get; } = [];

    internal List<AirwayNeed> SuctionedAirwayList { get; } = [];

    internal List<DueRun> DueRunList { get; } = [];

    internal List<(DiagnosticCode Code, Entity Where)> ProblemList { get; } = [];

    // The pass's index and 1; 0 for none.
    internal int[] PassOfFact { get; set; } = [];

    // What the builders work with; each clears its own before it begins.
    internal PassWork PassWork { get; } = new();

    internal OrderWork OrderWork { get; } = new();

    internal RegulatorOwners Owners { get; } = new();

    internal List<AirwayChange> AirwayChanges { get; } = [];

    internal List<SettingDraft> SettingDrafts { get; } = [];

    internal List<int> SessionOfPass { get; } = [];

    internal Dictionary<Entity, int> SessionOfParent { get; } = [];

    internal Dictionary<Entity, Entity> DeviceOfMetric { get; } = [];

    internal Dictionary<Entity, int> MetricCategories { get; } = [];

    internal Dictionary<Entity, int> DeviceKinds => _deviceKinds;

    public ReadOnlySpan<AirwaySpan> Airways => CollectionsMarshal.AsSpan(AirwayList);

    public ReadOnlySpan<EpisodeSpan> Episodes => CollectionsMarshal.AsSpan(EpisodeList);

    /// <summary>In order of start.</summary>
    public ReadOnlySpan<PassSpan> Passes => CollectionsMarshal.AsSpan(PassList);

    /// <summary>In order of start.</summary>
    public ReadOnlySpan<SessionSpan> Sessions => CollectionsMarshal.AsSpan(SessionList);

    /// <summary>In order of time.</summary>
    public ReadOnlySpan<SettingSpan> Settings => CollectionsMarshal.AsSpan(SettingList);

    public ReadOnlySpan<OrderSpan> Orders => CollectionsMarshal.AsSpan(OrderList);

    /// <summary>Indexes of facts, pass by pass.</summary>
    public ReadOnlySpan<int> Members => CollectionsMarshal.AsSpan(MemberList);

    /// <summary>Indexes of passes, session by session.</summary>
    public ReadOnlySpan<int> PassesBySession => CollectionsMarshal.AsSpan(PassesBySessionList);

    /// <summary>Indexes of facts, setting by setting.</summary>
    public ReadOnlySpan<int> SettingFacts => CollectionsMarshal.AsSpan(SettingFactList);

    /// <summary>Indexes of facts, order by order.</summary>
    public ReadOnlySpan<int> OrderFacts => CollectionsMarshal.AsSpan(OrderFactList);

    /// <summary>Indexes of the status facts of orders to suction that are on hold, by time; they are judged by no check of orders.</summary>
    public ReadOnlySpan<int> HeldOrders => CollectionsMarshal.AsSpan(HeldOrderList);

    /// <summary>Indexes of catheter rows that belong to no pass, by time.</summary>
    public ReadOnlySpan<int> LooseCatheters => CollectionsMarshal.AsSpan(LooseCatheterList);

    /// <summary>Indexes of inspired oxygen and of PEEP where some suction is charted or ordered as open; else none.</summary>
    public ReadOnlySpan<int> SupportRows => CollectionsMarshal.AsSpan(SupportRowList);

    /// <summary>Indexes of readings of an outlet's whole vacuum, by time; only in the timeline of the outlet itself.</summary>
    public ReadOnlySpan<int> OutletRows => CollectionsMarshal.AsSpan(OutletRowList);

    /// <summary>Indexes of charted cuff pressures, by time.</summary>
    public ReadOnlySpan<int> CuffRows => CollectionsMarshal.AsSpan(CuffRowList);

    /// <summary>Airways that were suctioned or that a catheter was ordered for.</summary>
    public ReadOnlySpan<AirwayNeed> AirwayNeeds => CollectionsMarshal.AsSpan(AirwayNeedList);

    /// <summary>Airways that were suctioned, from their first pass on.</summary>
    public ReadOnlySpan<AirwayNeed> SuctionedAirways => CollectionsMarshal.AsSpan(SuctionedAirwayList);

    /// <summary>The time judged, UTC ticks, for what asks which airway is in use then; set before measuring.</summary>
    public long JudgedAt { get; internal set; }

    /// <summary>An order is asked what it would be if its texts held against what is structured; set while measuring.</summary>
    public bool ReadsOverruled { get; internal set; }

    /// <summary>Times that run until something is charted, as the measures of what falls due list them while judging.</summary>
    public ReadOnlySpan<DueRun> DueRuns => CollectionsMarshal.AsSpan(DueRunList);

    /// <summary>What was noticed while rows were put together: code and the resource concerned.</summary>
    public IReadOnlyList<(DiagnosticCode Code, Entity Where)> Problems => ProblemList;

    /// <summary>Passes of another suction than the airway's, which are kept and not judged.</summary>
    public int OtherPasses { get; internal set; }

    /// <summary>The pass a fact belongs to; below 0 for none.</summary>
    public int PassOf(int factIndex) => PassOfFact[factIndex] - 1;

    /// <summary>The fact belongs to a pass of another suction than the airway's, which is kept and not judged.</summary>
    public bool IsOfOtherSuction(int factIndex) => PassOfFact[factIndex] < 0;

    /// <summary>Nothing but its time ties the fact to a pass of another suction than the airway's.</summary>
    public bool IsAtOtherSuction(int factIndex) => PassOfFact[factIndex] == AtOtherSuction;

    /// <summary>The fact belongs to a pass of which nobody can tell what it served.</summary>
    public bool IsOfUnknownUse(int factIndex) => PassOfFact[factIndex] > 0 && PassList[PassOfFact[factIndex] - 1].UseUnknown;

    /// <summary>The fact was charted with a pass that is not known to be one of the airway.</summary>
    public bool MayBeOfOtherSuction(int factIndex) => IsOfOtherSuction(factIndex) || IsOfUnknownUse(factIndex);

    public ReadOnlySpan<int> MembersOf(in PassSpan pass) => Members.Slice(pass.FirstMember, pass.MemberCount);

    /// <summary>Indexes of its facts.</summary>
    public ReadOnlySpan<int> FactsOf(in SettingSpan setting) => SettingFacts.Slice(setting.FirstFact, setting.FactCount);

    /// <summary>Indexes of its facts, without what its texts say against what is structured; while <see cref="ReadsOverruled"/>, with it.</summary>
    public ReadOnlySpan<int> FactsOf(in OrderSpan order) => ReadsOverruled ? AllFactsOf(order) : OrderFacts.Slice(order.FirstFact, order.FactCount);

    /// <summary>Indexes of its facts, and of what its texts say against what is structured.</summary>
    public ReadOnlySpan<int> AllFactsOf(in OrderSpan order) => OrderFacts.Slice(order.FirstFact, order.FactCount + order.OverruledCount);

    /// <summary>Indexes of its passes, by start.</summary>
    public ReadOnlySpan<int> PassesOf(in SessionSpan session) => PassesBySession.Slice(session.FirstPass, session.PassCount);

    /// <summary>The airway in use at a time; −1 for none.</summary>
    public int AirwayAt(long ticks)
    {
        for (var i = AirwayList.Count - 1; i >= 0; i--)
        {
            if (AirwayList[i].From <= ticks && ticks < AirwayList[i].To)
            {
                return i;
            }
        }

        return -1;
    }

    /// <summary>The latest airway in use since an order was written, up to the time judged; −1 for none.</summary>
    public int AirwayOfOrder(long authoredOn) => AirwayOfOrder(authoredOn, AirwayList.Count);

    /// <summary>The latest such airway that stands before an index; −1 for none.</summary>
    public int AirwayOfOrder(long authoredOn, int before)
    {
        for (var i = before - 1; i >= 0; i--)
        {
            if (IsSinceOrder(i, authoredOn))
            {
                return i;
            }
        }

        return -1;
    }

    /// <summary>Whether an airway was in use at or after the time an order was written, and has begun.</summary>
    public bool IsSinceOrder(int airway, long authoredOn) =>
        AirwayList[airway].To > authoredOn && AirwayList[airway].To > AirwayList[airway].From && AirwayList[airway].From <= JudgedAt;

    /// <summary>
    /// The episode at a time; −1 for none. A gap under an hour between two airways lies within one; before the first airway and
    /// after the last there is none.
    /// </summary>
    public int EpisodeAt(long ticks)
    {
        for (var i = 0; i < EpisodeList.Count; i++)
        {
            if (EpisodeList[i].From <= ticks && ticks < EpisodeList[i].To)
            {
                return i;
            }
        }

        return -1;
    }

    /// <summary>The episode an order is about: that at the time it was written, else the first one after; −1 for none.</summary>
    public int EpisodeOfOrder(long authoredOn)
    {
        var episode = EpisodeAt(authoredOn);
        for (var i = 0; episode < 0 && i < EpisodeList.Count; i++)
        {
            episode = EpisodeList[i].From > authoredOn ? i : -1;
        }

        return episode;
    }

    /// <summary>The line of the episode at a time, or of the patient where there is none.</summary>
    public Line EpisodeLine(long ticks, Entity patient)
    {
        var episode = EpisodeAt(ticks);
        return episode < 0 ? new Line(LineKind.Patient, patient) : new Line(LineKind.Episode, EpisodeList[episode].Identity);
    }

    /// <summary>How many settings lie at or before a time.</summary>
    internal int SettingsUntil(long ticks) => ByTime.FirstAfter(Settings, ticks);

    /// <summary>How many passes start up to a time.</summary>
    internal int PassesUntil(long ticks) => ByTime.FirstAfter(Passes, ticks);

    /// <summary>Kind of a device as an answer's index; 0 where nothing is known of it.</summary>
    public int KindOf(Entity device) => _deviceKinds.GetValueOrDefault(device);

    internal static long SaturatingAdd(long ticks, long span) =>
        span >= 0
            ? (ticks > long.MaxValue - span ? long.MaxValue : ticks + span)
            : (ticks < long.MinValue - span ? long.MinValue : ticks + span);

    internal void Clear(int facts)
    {
        AirwayList.Clear();
        EpisodeList.Clear();
        PassList.Clear();
        SessionList.Clear();
        SettingList.Clear();
        OrderList.Clear();
        MemberList.Clear();
        PassesBySessionList.Clear();
        SettingFactList.Clear();
        OrderFactList.Clear();
        HeldOrderList.Clear();
        HeldOfUnknownUse.Clear();
        LooseCatheterList.Clear();
        OutletRowList.Clear();
        CuffRowList.Clear();
        SupportRowList.Clear();
        AirwayNeedList.Clear();
        SuctionedAirwayList.Clear();
        DueRunList.Clear();
        ProblemList.Clear();
        OtherPasses = 0;
        ReadsOverruled = false;
        DeviceOfMetric.Clear();
        MetricCategories.Clear();
        _deviceKinds.Clear();
        if (PassOfFact.Length < facts)
        {
            PassOfFact = new int[Math.Max(facts, 256)];
        }

        PassOfFact.AsSpan(0, facts).Clear();
    }
}
