using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Rules;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Findings;

/// <summary>The rules by which what the facts make becomes changes to what is recorded.</summary>
public sealed class ReconcilerTests
{
    private const string Ceiling = "vacuum-above-ceiling", Wide = "catheter-too-wide";

    private static readonly RuleSet Rules = ShippedRuleSets.Load("strict-ranges").RuleSet!;

    private readonly Records _records = new();
    private readonly ChartBuilder _chart = new ChartBuilder().Born(1961, 5, 4);

    [Fact]
    public void What_nobody_knew_of_is_raised_as_an_occurrence_and_its_spell() =>
        Assert.Equal("Raise Occurrence, Raise Spell", Steps(Vacuum("a", "09:00", 220), Ceiling));

    [Fact]
    public void A_check_that_does_not_stand_has_an_occurrence_only() =>
        Assert.Equal("Raise Occurrence", Steps(_chart.Row("a", Concepts.PassDuration, "09:00", Number(25, Unit.Second)), "pass-too-long"));

    [Fact]
    public void The_same_again_changes_nothing()
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);

        Assert.Equal("", Steps(_chart, Ceiling));
    }

    [Fact]
    public void Charting_that_changes_nothing_of_it_changes_nothing()
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);

        Assert.Equal("", Steps(_chart.Row("h", Concepts.HeartRate, "09:30", Number(80, Unit.PerMinute)), Ceiling));
    }

    [Fact]
    public void Another_breach_in_the_spell_is_an_occurrence_of_its_own_and_amends_the_spell()
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);

        Assert.Equal("Raise Occurrence, Amend Spell", Steps(Vacuum("b", "10:00", 230), Ceiling));
    }

    [Fact]
    public void A_corrected_value_that_still_breaches_amends_both()
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);

        Assert.Equal("Amend Occurrence, Amend Spell", Steps(Correct("a", "09:00", 180), Ceiling));
    }

    [Fact]
    public void A_clearing_ends_the_spell_and_its_occurrences_follow()
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);

        Assert.Equal("Follow Occurrence, Clear Spell", Steps(Vacuum("b", "10:00", 120), Ceiling));
        Assert.Equal(FindingState.Cleared, Assert.Single(Occurrences(Ceiling)).State);
        Assert.Equal("", Steps(_chart, Ceiling));
    }

    [Fact]
    public void A_clearing_that_comes_to_light_late_gives_the_occurrences_after_it_to_their_own_spell()
    {
        Steps(Vacuum("a", "09:00", 220).Row("c", Concepts.VacuumPressure, "11:00", Number(220, Unit.MmHg)), Ceiling);
        var before = Occurrences(Ceiling).Select(record => record.Parent).Distinct().Single();

        Assert.Equal("Follow Occurrence, Clear Spell, Follow Occurrence, Raise Spell", Steps(Vacuum("b", "10:00", 120), Ceiling));
        var (first, second) = (Occurrences(Ceiling)[0], Occurrences(Ceiling)[1]);
        Assert.Equal((before, FindingState.Cleared), (first.Parent, first.State));
        Assert.Equal((Spells(Ceiling).Single(spell => spell.State == FindingState.Open).Key, FindingState.Open), (second.Parent, second.State));
    }

    [Fact]
    public void A_spell_charted_whole_is_recorded_as_cleared_at_once() =>
        Assert.Equal("Raise Occurrence, Clear Spell", Steps(Vacuum("a", "09:00", 220).Row("b", Concepts.VacuumPressure, "10:00", Number(120, Unit.MmHg)), Ceiling));

    [Fact]
    public void A_breach_after_the_clearing_is_a_new_spell_with_a_key_of_its_own()
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);
        Steps(Vacuum("b", "10:00", 120), Ceiling);

        Assert.Equal("Raise Occurrence, Raise Spell", Steps(Vacuum("c", "11:00", 220), Ceiling));
        Assert.Equal([FindingState.Cleared, FindingState.Open], Spells(Ceiling).Select(record => record.State).Order().Reverse());
    }

    [Fact]
    public void A_clearing_taken_back_opens_the_same_spell_again()
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);
        Steps(Vacuum("b", "10:00", 120), Ceiling);

        Assert.Equal("Follow Occurrence, Amend Spell", Steps(_chart.TakeBack("b"), Ceiling));
        Assert.Equal(FindingState.Open, Assert.Single(Occurrences(Ceiling)).State);
        Assert.Equal(FindingState.Open, Assert.Single(Spells(Ceiling)).State);
    }

    [Fact]
    public void What_its_row_no_longer_supports_is_withdrawn_once()
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);

        Assert.Equal("Withdraw Occurrence, Withdraw Spell", Steps(_chart.TakeBack("a"), Ceiling));
        Assert.Equal("", Steps(_chart, Ceiling));
    }

    [Fact]
    public void What_was_withdrawn_and_comes_back_is_amended_under_its_old_key()
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);
        Steps(_chart.TakeBack("a"), Ceiling);

        Assert.Equal("Amend Occurrence, Amend Spell", Steps(Vacuum("a", "09:00", 220), Ceiling));
    }

    [Fact]
    public void One_of_two_breaches_taken_back_withdraws_its_occurrence_and_amends_the_spell()
    {
        Steps(Vacuum("a", "09:00", 220).Row("b", Concepts.VacuumPressure, "10:00", Number(230, Unit.MmHg)), Ceiling);

        Assert.Equal("Amend Spell, Withdraw Occurrence", Steps(_chart.TakeBack("b"), Ceiling));
    }

    [Fact]
    public void A_check_no_longer_in_force_ends_its_open_Flag_and_leaves_history()
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);
        var without = Rules with { Rules = [.. Rules.Rules.Where(rule => rule.Id != Ceiling)] };

        var plan = _records.Take(new DerivedFindings([], [], []), without);

        Assert.Equal("Retire Occurrence, Retire Spell", string.Join(", ", plan.Where(item => item.Prior!.Check == Ceiling).Select(item => $"{item.Step} {item.Kind}")));
    }

    [Fact]
    public void A_check_no_longer_in_force_changes_nothing_of_a_spell_that_had_ended()
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);
        Steps(Vacuum("b", "10:00", 120), Ceiling);

        Assert.DoesNotContain(
            _records.Take(new DerivedFindings([], [], []), Rules with { Rules = [.. Rules.Rules.Where(rule => rule.Id != Ceiling)] }), item => item.Kind != FindingKind.CannotTell);
    }

    [Fact]
    public void What_could_not_be_told_is_recorded_once_counted_and_ended_when_nothing_asks_any_more()
    {
        var ageless = new ChartBuilder().Row("a", Concepts.VacuumPressure, "09:00", Number(120, Unit.MmHg));

        Assert.Equal("Raise CannotTell", Steps(ageless, Ceiling));
        Assert.Equal("", Steps(ageless, Ceiling));
        Assert.Equal("Follow CannotTell", Steps(ageless.Then().Row("b", Concepts.VacuumPressure, "10:00", Number(120, Unit.MmHg)), Ceiling));
        Assert.Equal("Clear CannotTell", string.Join(", ", _records.Take(new DerivedFindings([], [], []), Rules).Where(item => item.Prior!.Check == Ceiling).Select(item => $"{item.Step} {item.Kind}")));
        Assert.Equal("Amend CannotTell", Steps(ageless, Ceiling));
    }

    [Fact]
    public void A_Flag_that_a_person_ended_closes_its_spell_once()
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);
        var acts = Closed(Spells(Ceiling)[0].Key);

        Assert.Equal("CloseByPerson Spell", Steps(_chart, Ceiling, acts));
        Assert.Equal("", Steps(_chart, Ceiling, acts));
    }

    [Fact]
    public void Within_a_closed_spell_the_same_severity_is_not_shown_again()
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);
        var acts = Closed(Spells(Ceiling)[0].Key);

        Assert.Equal("Raise Occurrence, CloseByPerson Spell", Steps(Vacuum("b", "10:00", 230), Ceiling, acts));
        Assert.Equal("Raise Occurrence", Steps(Vacuum("c", "11:00", 240), Ceiling, acts));
    }

    [Fact]
    public void Within_a_closed_spell_a_higher_severity_is_shown_again_and_names_the_closed_Flag()
    {
        Steps(Pass("a", "09:00", 14), Wide);
        var closed = Spells(Wide)[0].Key;
        Steps(_chart, Wide, Closed(closed));

        var plan = Plan(Pass("b", "10:00", 18), Wide, Closed(closed));

        var again = Assert.Single(plan, item => item.Kind == FindingKind.Spell);
        Assert.Equal((FindingStep.Raise, 2, closed), (again.Step, again.Shown, again.Replaces!.Value));
        Assert.Equal(FindingKeys.Flag(Wide, again.Finding!.Line, again.Finding.Anchor, 2), again.Key);
    }

    [Fact]
    public void What_is_shown_again_can_be_closed_again_and_then_stays_so()
    {
        Steps(Pass("a", "09:00", 14), Wide);
        var first = Spells(Wide)[0].Key;
        Steps(_chart, Wide, Closed(first));
        Steps(Pass("b", "10:00", 18), Wide, Closed(first));
        var second = Spells(Wide).Single(record => record.State == FindingState.Open).Key;

        Assert.Equal("CloseByPerson Spell", Steps(_chart, Wide, Closed(first, second)));
        Assert.Equal("Raise Occurrence", Steps(Pass("c", "11:00", 18), Wide, Closed(first, second)));
    }

    [Fact]
    public void Within_a_closed_spell_another_tube_is_shown_again_and_names_the_closed_Flag()
    {
        _chart.Device("ett", "tracheal-tube").InUse("u", "ett", "08:00");
        Steps(Vacuum("a", "09:00", 220), Ceiling);
        var closed = Spells(Ceiling)[0].Key;
        Assert.Equal("Raise Occurrence, CloseByPerson Spell", Steps(Vacuum("b", "09:30", 220), Ceiling, Closed(closed)));

        _chart.Then().InUse("u", "ett", "08:00", "09:40").Device("ett2", "tracheal-tube").InUse("u2", "ett2", "09:45");
        var again = Assert.Single(Plan(Vacuum("c", "10:00", 220), Ceiling, Closed(closed)), item => item.Kind == FindingKind.Spell);

        Assert.Equal((FindingStep.Raise, 2, closed), (again.Step, again.Shown, again.Replaces!.Value));
        Assert.Equal("CloseByPerson Spell", Steps(_chart, Ceiling, Closed(closed, again.Key)));
        Assert.Equal("Raise Occurrence", Steps(Vacuum("d", "11:00", 220), Ceiling, Closed(closed, again.Key)));
    }

    [Fact]
    public void Within_a_closed_spell_a_tube_charted_for_the_first_time_is_no_other_tube()
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);
        var acts = Closed(Spells(Ceiling)[0].Key);
        Steps(_chart, Ceiling, acts);

        Assert.DoesNotContain(Plan(Vacuum("b", "10:00", 220).Device("ett", "tracheal-tube").InUse("u", "ett", "09:30"), Ceiling, acts), item => item.Replaces is not null);
    }

    [Fact]
    public void A_closed_spell_is_not_reported_as_cleared_afterwards()
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);
        var acts = Closed(Spells(Ceiling)[0].Key);
        Steps(_chart, Ceiling, acts);

        Assert.Equal("Follow Occurrence", Steps(Vacuum("b", "10:00", 120), Ceiling, acts));
        Assert.Equal(FindingState.ClosedByPerson, Assert.Single(Spells(Ceiling)).State);
    }

    [Fact]
    public void A_breach_after_the_clearing_of_a_closed_spell_is_a_new_spell()
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);
        var acts = Closed(Spells(Ceiling)[0].Key);
        Steps(Vacuum("b", "10:00", 120), Ceiling, acts);

        Assert.Equal("Raise Occurrence, Raise Spell", Steps(Vacuum("c", "11:00", 220), Ceiling, acts));
    }

    [Fact]
    public void A_closed_spell_whose_rows_are_taken_back_is_withdrawn()
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);
        var acts = Closed(Spells(Ceiling)[0].Key);
        Steps(_chart, Ceiling, acts);

        Assert.Equal("Withdraw Occurrence, Withdraw Spell", Steps(_chart.TakeBack("a"), Ceiling, acts));
    }

    [Fact]
    public void Our_own_ending_of_a_Flag_is_no_closing_by_a_person()
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);
        var key = Spells(Ceiling)[0].Key;

        Assert.Equal("Follow Occurrence, Clear Spell", Steps(Vacuum("b", "10:00", 120), Ceiling));
        Assert.Equal("", Steps(_chart, Ceiling, Closed(key)));
    }

    [Fact]
    public void A_mitigated_issue_closes_itself_and_its_spell()
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);
        var acts = new PersonsActs(new HashSet<Guid>(), new HashSet<Guid> { _records.All.Single(record => record.Check == Ceiling && record.Kind == FindingKind.Occurrence).Key });

        Assert.Equal("CloseByPerson Occurrence, CloseByPerson Spell", Steps(_chart, Ceiling, acts));
        Assert.Equal("", Steps(_chart, Ceiling, acts));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void What_follows_in_the_spell_is_shown_where_all_that_was_mitigated_is_taken_back_whichever_is_known_first(bool lookedInBetween)
    {
        Steps(Vacuum("a", "09:00", 220), Ceiling);
        var acts = new PersonsActs(new HashSet<Guid>(), new HashSet<Guid> { _records.All.Single(record => record.Check == Ceiling && record.Kind == FindingKind.Occurrence).Key });
        Steps(_chart, Ceiling, acts);
        _chart.TakeBack("a");
        if (lookedInBetween)
        {
            Steps(_chart, Ceiling, acts);
        }

        Steps(Vacuum("b", "10:00", 220), Ceiling, acts);

        Assert.Equal(FindingState.Open, Spells(Ceiling).Single().State);
    }

    [Fact]
    public void A_mitigation_does_not_close_the_Flag_that_is_shown_again_after_it()
    {
        Steps(Pass("a", "09:00", 14), Wide);
        var acts = new PersonsActs(new HashSet<Guid>(), new HashSet<Guid> { _records.All.Single(record => record.Check == Wide && record.Kind == FindingKind.Occurrence).Key });
        Steps(_chart, Wide, acts);

        Assert.Equal("Raise Occurrence, Raise Spell", Steps(Pass("b", "10:00", 18), Wide, acts));
        Assert.Equal("", Steps(_chart, Wide, acts));
    }

    [Fact]
    public void A_new_mitigation_closes_the_Flag_that_was_shown_again()
    {
        Steps(Pass("a", "09:00", 14), Wide);
        var first = _records.All.Single(record => record.Check == Wide && record.Kind == FindingKind.Occurrence).Key;
        Steps(_chart, Wide, new PersonsActs(new HashSet<Guid>(), new HashSet<Guid> { first }));
        Steps(Pass("b", "10:00", 18), Wide, new PersonsActs(new HashSet<Guid>(), new HashSet<Guid> { first }));
        var second = _records.All.Single(record => record.Check == Wide && record.Kind == FindingKind.Occurrence && record.Key != first).Key;

        Assert.Equal("CloseByPerson Occurrence, CloseByPerson Spell", Steps(_chart, Wide, new PersonsActs(new HashSet<Guid>(), new HashSet<Guid> { first, second })));
    }

    [Fact]
    public void Two_fingerprints_say_by_name_what_differs()
    {
        var before = Derived(Vacuum("a", "09:00", 220), Ceiling);
        var after = Derived(Correct("a", "09:00", 180), Ceiling);

        Assert.Equal(
            ["value: recorded 220, now 180", "rows it rests on: not the same"],
            Fingerprints.Differences(FindingKind.Occurrence, Fingerprints.Of(before.Latest), Fingerprints.Of(after.Latest)), StringComparer.Ordinal);
        Assert.Equal(
            [$"occurrence {after.Latest.Key:D}: value: recorded 220, now 180", $"occurrence {after.Latest.Key:D}: rows it rests on: not the same"],
            Fingerprints.Differences(FindingKind.Spell, Fingerprints.Of(before), Fingerprints.Of(after)), StringComparer.Ordinal);
        Assert.Empty(Fingerprints.Differences(FindingKind.Spell, Fingerprints.Of(after), Fingerprints.Of(after)));
    }

    private static PersonsActs Closed(params Guid[] flags) => new(flags.ToHashSet(), new HashSet<Guid>());

    private static DerivedFinding Derived(ChartBuilder chart, string check) => chart.Judge().Findings.Single(finding => finding.Rule.Id == check);

    private ChartBuilder Vacuum(string id, string at, int mmHg) => _chart.Then().Row(id, Concepts.VacuumPressure, at, Number(mmHg, Unit.MmHg));

    private ChartBuilder Correct(string id, string at, int mmHg) => Vacuum(id, at, mmHg);

    // A pass in a tube of 8 mm, which is charted with the first one.
    private ChartBuilder Pass(string id, string at, int french) => (id == "a" ? _chart.Row("t", Concepts.TubeInnerDiameter, "08:00", Number(8, Unit.Millimetre)) : _chart.Then())
        .Row(id, at, null, null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.CatheterSize, Number(french, Unit.French)));

    private string Steps(ChartBuilder chart, string check, PersonsActs? acts = null) =>
        string.Join(", ", Plan(chart, check, acts).Select(item => $"{item.Step} {item.Kind}"));

    private List<FindingPlanItem> Plan(ChartBuilder chart, string check, PersonsActs? acts = null) =>
        [.. _records.Take(chart.Judge(), Rules, acts).Where(item => (item.Finding?.Rule.Id ?? item.CannotTell?.Rule.Id ?? item.Prior!.Check) == check)];

    private IReadOnlyList<FindingRecord> Occurrences(string check) => [.. _records.All.Where(record => record.Check == check && record.Kind == FindingKind.Occurrence)];

    private List<FindingRecord> Spells(string check) => [.. _records.All.Where(record => record.Check == check && record.Kind == FindingKind.Spell)];
}
