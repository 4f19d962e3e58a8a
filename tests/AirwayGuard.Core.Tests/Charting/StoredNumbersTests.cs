using AirwayGuard.Core.Charting;
using Xunit;

namespace AirwayGuard.Core.Tests.Charting;

/// <summary>
/// Numbers that a ledger holds and its indexes go by. Whoever adds one adds it at the end: a number that changes its meaning makes of what was
/// charted something else.
/// </summary>
public sealed class StoredNumbersTests
{
    private const string ConceptsInOrder =
        """
        suction-pass vacuum-pressure vacuum-set vacuum-reading-method regulator-mode suction-use full-line-vacuum calibrated-on airway-type
        tube-inner-diameter inner-cannula-diameter inner-cannula-in-place tube-length adapter-length insertion-depth tube-depth catheter-size suction-system
        depth-technique hand-technique pass-duration pass-count preoxygenation preoxygenation-duration hyperoxygenation-contraindicated fio2 peep spo2
        heart-rate respiratory-rate saline-instilled suction-indication secretion-appearance secretion-amount secretion-consistency suction-reaction
        ventilator-disconnected airway-assessed allowance-reason cuff-pressure intracranial-pressure-monitored lung-injury bleeding-risk surfactant-given
        body-weight gestational-age-at-birth birth-date device-kind metric-category metric-means encounter-class encounter-period order-status order-intent
        order-interval order-as-needed order-by-clock order-vacuum-low order-vacuum-high order-do-not-suction flag-inactive issue-mitigated order-unread
        order-held-after order-under-condition
        """;

    [Fact]
    public void A_concept_keeps_its_number() =>
        Assert.Equal(ConceptsInOrder.Split((char[])[' ', '\r', '\n'], StringSplitOptions.RemoveEmptyEntries), Concepts.Table.ToArray().Select(info => info.Code), StringComparer.Ordinal);

    [Fact]
    public void A_kind_of_link_keeps_its_number() => Assert.Equal(
        "None UsedBy StandsAt EncounterOf TakesPlaceAt MetricOf PartOf MemberOf Uses BasedOn FocusOn OrderFor DoneTo NamedWith PanelOf GroupedBy Replaces".Split(' '),
        Enum.GetValues<LinkKind>().Order().Select(kind => kind.ToString()), StringComparer.Ordinal);

    [Fact]
    public void A_kind_of_entity_keeps_its_number() => Assert.Equal(
        "None Patient Place Device Metric Encounter Order Act Row Statement RowCode GroupKey Practitioner".Split(' '),
        Enum.GetValues<EntityKind>().Order().Select(kind => kind.ToString()), StringComparer.Ordinal);
}
