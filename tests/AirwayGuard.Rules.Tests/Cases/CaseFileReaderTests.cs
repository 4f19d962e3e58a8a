using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Rules.Cases;

namespace AirwayGuard.Rules.Tests.Cases;

/// <summary>A file of cases is read whole or not at all, and each fault is told with its code and its place.</summary>
public sealed class CaseFileReaderTests
{
    [Fact]
    public void A_valid_file_is_read_without_a_fault_and_its_cases_hold()
    {
        var file = CaseDocuments.Read(CaseDocuments.Valid);

        Assert.Empty(file.Faults);
        Assert.Equal(2, file.Cases.Length);
        Assert.All(file.Cases, one => Assert.Empty(CaseComparison.Of(one, new CaseChart(one).Judge(ShippedRuleSets.Load("strict-ranges").RuleSet!)).Differences));
    }

    [Fact]
    public void What_a_case_says_is_read_as_it_stands()
    {
        var one = CaseDocuments.Read(CaseDocuments.Valid).Cases[0];

        Assert.Equal(("an adult's ceiling is 150 mmHg", "inpatient", UnknownAge.CannotTell), (one.Name, one.Stay, one.UnknownAge));
        Assert.Equal("12:00", CaseTime.Say(one.AsOf!.Value));
        var thing = Assert.Single(one.Things);
        Assert.Equal(("wall-left", "bay-3", "day 2 08:00"), (thing.Id, thing.StandsAt, CaseTime.Say(thing.UsedUntil!.Value)));
        Assert.Equal(("wall-left", "10:00", "10:01"), (one.Rows[0].Device, CaseTime.Say(one.Rows[0].From), CaseTime.Say(one.Rows[0].Until)));
        Assert.Equal(["", "first"], one.Orders.Select(order => order.Replaces), StringComparer.Ordinal);
        var finding = Assert.Single(one.Finds);
        Assert.Equal((Severity.High, AgeBand.Adult, true, false, true), (finding.Severity!.Value, finding.Band!.Value, finding.IsOpen!.Value, finding.IsWithheld, finding.HasFlag!.Value));
        Assert.Equal(new CaseAmount(151m, Unit.MmHg), finding.Value);
    }

    /// <summary>One row for each way of going wrong; § stands where the fault is told.</summary>
    [Theory]
    [InlineData("AG3501", "schema: 1\ncases:", "#")]
    [InlineData("AG3502", "vacuum-pressure: 151 mmHg, v", "vacuum-pressure: §much, v")]
    [InlineData("AG3502", "vacuum-pressure: 151 mmHg, v", "vacuum-pressure: §151 cm, v")]
    [InlineData("AG3502", "vacuum-reading-method: occluded", "vacuum-reading-method: §ocluded")]
    [InlineData("AG3502", "151 mmHg, vacuum-reading-method: occluded", "151 mmHg, intracranial-pressure-monitored: §perhaps")]
    [InlineData("AG3502", "151 mmHg, vacuum-reading-method: occluded", "151 mmHg, calibrated-on: §1 March")]
    [InlineData("AG3503", "at: 10:00, until", "at: §25:00, until")]
    [InlineData("AG3503", "until: 10:01", "until: §09:59")]
    [InlineData("AG3503", "as-of: 12:00", "as-of: §noon")]
    [InlineData("AG3503", "as-of: 12:00", "as-of: §day 4000 12:00")]
    [InlineData("AG3503", "as-of: 12:00", "as-of: §day -2147483648 12:00")]
    [InlineData("AG3503", "born: 66 years", "born: §old")]
    [InlineData("AG3503", "used-until: day 2 08:00", "used-until: §later")]
    [InlineData("AG3503", "latest: 10:00", "latest: §ten")]
    [InlineData("AG3504", "stay: inpatient", "stay: §inpatent")]
    [InlineData("AG3504", "unknown-age: cannot-tell", "unknown-age: §guess")]
    [InlineData("AG3504", "kind: vacuum-regulator", "kind: §regulator")]
    [InlineData("AG3504", "status: active", "status: §begun")]
    [InlineData("AG3504", "band: adult", "band: §grown")]
    [InlineData("AG3504", "state: open", "state: §ajar")]
    [InlineData("AG3504", "withheld: no", "withheld: §maybe")]
    [InlineData("AG3504", "flag: yes", "flag: §red")]
    [InlineData("AG3504", "count: 1, band", "count: §0, band")]
    [InlineData("AG3505", "device: wall-left", "device: §wall-right")]
    [InlineData("AG3505", "replaces: first", "replaces: §third")]
    [InlineData("AG3505", "vacuum-reading-method: occluded }", "suction-pass: yes, uses: §wall-right }")]
    [InlineData("AG3505", "vacuum-reading-method: occluded }", "suction-pass: yes, uses: [wall-left, §wall-right] }")]
    [InlineData("AG3104", "vacuum-reading-method: occluded }", "suction-pass: yes, uses: [§{ id: wall-left }] }")]
    [InlineData("AG3505", "vacuum-reading-method: occluded }", "suction-pass: yes, under: §first }")]
    [InlineData("AG3103", "- { at: 10:00, until: 10:01, device: wall-left, v", "- §{ at: 10:00, uses: wall-left, v")]
    [InlineData("AG3505", "schema: 1\n", "schema: 1\nalso: §lenient\n")]
    [InlineData("AG3506", "without an age nobody can tell", "§an adult's ceiling is 150 mmHg")]
    [InlineData("AG3506", "order: second", "order: §first")]
    [InlineData("AG3104", "about: [vacuum-above-ceiling]", "about: [§[vacuum-above-ceiling]]")]
    [InlineData("AG3104", "about: [vacuum-above-ceiling]", "about: [§{ check: vacuum-above-ceiling }]")]
    public void A_fault_is_told_with_its_code_at_its_place(string code, string passage, string changed)
    {
        var (document, places) = Documents.TakeMarks(code == "AG3501" ? changed : CaseDocuments.With(passage, changed));

        var file = CaseDocuments.Read(document);

        var fault = Assert.Single(file.Faults);
        Assert.Equal((code, "ward.cases.yaml"), (fault.Code.Id, fault.File));
        Assert.Equal(places.DefaultIfEmpty((1, 1)).Single(), (fault.Line, fault.Column));
    }

    [Fact]
    public void A_second_thing_of_one_name_is_told() =>
        Assert.Equal(["AG3506"], Codes(CaseDocuments.With("08:00 }\n", "08:00 }\n      - { id: wall-left, kind: vacuum-regulator }\n")));

    [Fact]
    public void A_check_that_the_rule_set_lacks_is_told_at_the_case_that_names_it()
    {
        var (document, places) = Documents.TakeMarks(CaseDocuments.With("case: without", "case: §without").Replace("about: [vacuum-above-ceiling]", "about: [vacuum-over-ceiling]", StringComparison.Ordinal));

        var selection = CaseSelection.Of(ShippedRuleSets.Load("strict-ranges"), [CaseDocuments.Read(document)]);

        var fault = Assert.Single(selection.Faults);
        Assert.Equal(("AG3507", places[0].Line, places[0].Column), (fault.Code.Id, fault.Line, fault.Column));
        Assert.Contains("Did you mean vacuum-above-ceiling?", fault.What, StringComparison.Ordinal);
    }

    /// <summary>What no chart can hold must not be held against a rule: the reader of charts refuses it too.</summary>
    [Theory]
    [InlineData("catheter-size: 4.5 mm")]
    [InlineData("cuff-pressure: 25")]
    [InlineData("cuff-pressure: -25 cmH2O")]
    [InlineData("pass-duration: -5 s")]
    [InlineData("peep: 8")]
    [InlineData("body-weight: 3")]
    public void A_unit_or_sign_that_no_chart_may_hold_is_refused(string charted) => Assert.Equal(["AG3502"], Codes(CaseDocuments.Charting("at: 10:00, " + charted)));

    [Theory]
    [InlineData("vacuum-pressure: 120")]
    [InlineData("vacuum-pressure: -120 mmHg")]
    [InlineData("vacuum-set: 120")]
    [InlineData("pass-count: 3")]
    [InlineData("fio2: 0.4")]
    [InlineData("fio2: 40")]
    [InlineData("preoxygenation: yes")]
    [InlineData("catheter-size: 12 Fr")]
    [InlineData("cuff-pressure: unreadable")]
    [InlineData("vacuum-pressure: '>= 120 mmHg'")]
    public void What_a_chart_may_hold_is_read(string charted) => Assert.Empty(Codes(CaseDocuments.Charting("at: 10:00, " + charted)));

    private static string[] Codes(string document) => [.. CaseDocuments.Read(document).Faults.Select(fault => fault.Code.Id)];
}
