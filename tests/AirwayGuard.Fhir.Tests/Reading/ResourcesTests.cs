using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>The samples and single questions about each type.</summary>
public sealed class ResourcesTests
{
    private static readonly CodeMap Map = CodeMap.Load(ShippedMaps.Standard, ShippedMaps.DemoRows, SiteMap.Rows).Map!;

    [Theory]
    [InlineData("Observation/fs-1", "vacuum-set=160 mm[Hg]#0", "")]
    [InlineData("Observation/fs-2", "catheter-size=14 [Ch]#0", "")]
    [InlineData("Observation/fs-4", "preoxygenation=notperformed#0", "")]
    [InlineData("Procedure/sx-1", "suction-pass=absent#0", "DoneTo Patient/p1; BasedOn ServiceRequest/sr-1; Uses Device/cath-14fr; Uses Device/reg-12; Uses Device/ett-1")]
    [InlineData("Observation/sx-1-secr", "secretion-amount=copious#1", "PartOf Procedure/sx-1")]
    [InlineData("Observation/spo2-pre", "fio2=100 %#1; spo2=96 %#0", "")]
    [InlineData("Device/ett-1", "device-kind=tracheal-tube#0; tube-inner-diameter=7.5 mm#1", "UsedBy Patient/p1")]
    [InlineData("DeviceUseStatement/dus-1", "", "UsedBy Patient/p1")]
    [InlineData("Observation/ett-depth", "tube-depth=23 cm#0", "FocusOn Device/ett-1")]
    [InlineData("Device/reg-12", "device-kind=vacuum-regulator#0", "StandsAt Location/icu-b12")]
    [InlineData("DeviceMetric/reg-12-set", "metric-category=setting#0; metric-means=vacuum-set#0", "MetricOf Device/reg-12")]
    [InlineData("DeviceMetric/m2", "metric-category=measurement#0; metric-means=vacuum-pressure#0; calibrated-on=date 20250102/8#1", "MetricOf Device/reg-12")]
    [InlineData("Observation/reg-12-120", "regulator-mode=regulated#1; vacuum-set=120 mm[Hg]#0", "NamedWith Patient/p1")]
    [InlineData("ServiceRequest/sr-1", "order-status=active#0; order-intent=order#0; order-as-needed=yes#0; order-interval=4 h#0; order-by-clock=no#0; preoxygenation=yes#3; order-vacuum-high=120 mm[Hg]#49152; catheter-size=14 [Ch]#49153; suction-system=closed#49158; saline-instilled=no#49157", "OrderFor Patient/p1")]
    [InlineData("DeviceRequest/dr-1", "order-status=active#0; order-intent=order#0; order-vacuum-low=80 mm[Hg]#1; order-vacuum-high=120 mm[Hg]#1; catheter-size=14 [Ch]#2; suction-system=closed#3", "OrderFor Patient/p1; BasedOn ServiceRequest/sr-1")]
    [InlineData("Patient/p1", "birth-date=date 19610500/6#0", "")]
    [InlineData("Encounter/e1", "encounter-period=yes#0; encounter-class=inpatient#0", "EncounterOf Patient/p1; TakesPlaceAt Location/icu-b12; TakesPlaceAt Location/icu-b13")]
    [InlineData("Location/icu-b12", "", "")]
    [InlineData("Condition/c1", "lung-injury=yes#0", "")]
    public void A_sample_is_read_as_expected(string sample, string facts, string links)
    {
        var read = Some.Read(Samples.Of(sample), new FhirArrivalReader(Map));

        Assert.Equal(facts, string.Join("; ", read.Reading.Facts.Select(fact => $"{fact.Concept}={Read.InWords(fact.Value)}#{fact.Id.Ordinal}")));
        Assert.Equal(links, string.Join("; ", read.Reading.Links.Select(link => $"{link.Kind} {read.Names.NameOf(link.To)}")));
        Assert.Equal(sample, read.Names.NameOf(read.Reading.Self));
        Assert.Empty(read.Codes);
        Assert.True(read.Reading.Readable);
        Assert.All(read.Reading.Facts, fact => Assert.Equal(sample, read.Names.NameOf(fact.Row)));
    }

    [Theory]
    [InlineData("2025-03-10", true, 0L, 0)]
    [InlineData("2025-03-10T09:30:00+01:00", false, 638771922000000000L, 60)]
    public void A_calibration_charted_to_the_minute_happened_then_and_a_date_alone_has_no_time(string charted, bool timeless, long ticks, int offset)
    {
        var fact = Some.Read($$"""
            {"resourceType":"Device","id":"d","property":[{"type":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"calibrated-on"}]},"valueCode":[{"text":"{{charted}}"}]}]}
            """).Only;

        Assert.Equal((Concepts.CalibratedOn, "date 20250310/8", timeless), (fact.Concept, Read.InWords(fact.Value), fact.Has(FactMarks.Timeless)));
        Assert.True(timeless || (fact.EffectiveFrom == ticks && fact.OffsetMinutes == offset));
    }

    [Fact]
    public void A_row_carries_its_subject_encounter_time_offset_group_and_identifier()
    {
        var read = Some.Read(Some.Observation("suction-pass", "", """
            "encounter":{"reference":"https://a.example.org/fhir/Encounter/e1/_history/4"},"device":{"reference":"DeviceMetric/m"},
            "partOf":[{"reference":"Procedure/a"},{"reference":"Procedure/b"}],"identifier":[{"system":"urn:x","value":"row/7/31"}]
            """));
        var fact = read.Only;

        Assert.Equal("Patient/p1", read.Names.NameOf(fact.About));
        Assert.Equal("Encounter/e1", read.Names.NameOf(fact.Encounter));
        Assert.Equal(EntityKind.Metric, fact.Device.Kind);
        Assert.Equal("Procedure/a", read.Names.NameOf(fact.Act));
        Assert.Equal("urn:x|row/7", read.Names.NameOf(fact.Group));
        Assert.Equal("urn:x|row/7/31", read.Reading.Identifier);
        Assert.Equal(660, fact.OffsetMinutes);
        Assert.Equal(new DateTime(2026, 2, 28, 22, 55, 0, DateTimeKind.Utc).Ticks, fact.EffectiveFrom);
        Assert.Equal(["PartOf Procedure/a", "PartOf Procedure/b", "NamedWith Patient/p1"], read.Reading.Links.Select(link => $"{link.Kind} {read.Names.NameOf(link.To)}"), StringComparer.Ordinal);
    }

    [Theory]
    [InlineData("\"identifier\":[{\"value\":\"https://x.example.org/1/2\"}]", "")]
    [InlineData("\"identifier\":[{\"value\":\"urn:uuid:1/2\"}]", "")]
    [InlineData("\"identifier\":[{\"value\":\"row/31\"}]", "")]
    [InlineData("\"identifier\":[{\"value\":\"88^31\"}]", "|88")]
    [InlineData("\"basedOn\":[{\"reference\":\"ServiceRequest/s\"}]", "ServiceRequest/s@639079161000000000")]
    public void Rows_of_one_column_share_a_grouping_key(string more, string expected)
    {
        var read = Some.Read(Some.Observation("suction-pass", "", more));

        Assert.Equal(expected, read.Names.NameOf(read.Only.Group));
    }

    [Theory]
    [InlineData("\"status\":\"final\"", "\"status\":\"entered-in-error\"", "AG2108", true)]
    [InlineData("\"status\":\"final\"", "\"status\":\"cancelled\"", "AG2124", true)]
    [InlineData("\"status\":\"final\"", "\"status\":\"registered\"", "AG2124", true)]
    [InlineData("\"status\":\"final\"", "\"status\":\"finalised\"", "AG2111", true)]
    [InlineData("\"status\":\"final\",", "", "AG2111", true)]
    [InlineData("\"status\":\"final\"", "\"status\":\"final\",\"modifierExtension\":[{\"url\":\"u\",\"valueBoolean\":true}]", "AG2110", true)]
    [InlineData("\"status\":\"final\"", "\"status\":\"final\",\"meta\":{\"security\":[{\"code\":\"HTEST\"}]}", "AG2113", true)]
    [InlineData("T09:55:00+11:00", "", "AG2006", false)]
    [InlineData("T09:55:00+11:00", "T09:55:00", "AG2006", false)]
    [InlineData("2026-03-01T09:55:00+11:00", "soon", "AG2011", false)]
    [InlineData("effectiveDateTime", "issued", "AG2011", false)]
    [InlineData("\"reference\":\"Patient/p1\"", "\"identifier\":{\"value\":\"1\"}", "AG2005", false)]
    [InlineData("Patient/p1", "Group/g", "AG2005", false)]
    public void A_row_that_may_not_be_used_gives_no_fact(string from, string to, string code, bool isReadable)
    {
        var read = Some.Read(Some.Observation("vacuum-pressure", Some.Quantity("220", "mmHg")).Replace(from, to, StringComparison.Ordinal));

        Assert.Empty(read.Reading.Facts);
        Assert.Equal(code, read.Codes);
        Assert.Equal(isReadable, read.Reading.Readable);
    }

    [Fact]
    public void A_row_that_no_map_knows_is_of_no_interest_whatever_its_time()
    {
        var read = Some.Read(Some.Observation("potassium", Some.Quantity("4"), system: "urn:laboratory").Replace("T09:55:00+11:00", "", StringComparison.Ordinal));

        Assert.Empty(read.Reading.Facts);
        Assert.Empty(read.Codes);
        Assert.True(read.Reading.Readable);
        Assert.Equal("Observation/o1", read.Names.NameOf(read.Reading.Self));
    }

    [Fact]
    public void A_panel_names_its_members_though_no_map_knows_it()
    {
        var read = Some.Read(Some.Observation("panel", "", "\"hasMember\":[{\"reference\":\"Observation/m\"}]"));
        var link = Assert.Single(read.Reading.Links, link => link.Kind == LinkKind.MemberOf);

        Assert.Contains(read.Reading.Links, own => own.Kind == LinkKind.PanelOf);
        Assert.Equal(("Observation/m", "Observation/o1"), (read.Names.NameOf(link.From), read.Names.NameOf(link.To)));
    }

    [Fact]
    public void An_inexact_diameter_is_used_marked_and_said()
    {
        var read = Some.Read(Some.Observation("79562-5", "\"valueString\":\"7.5mm\"", system: "http://loinc.org"));

        Assert.True(read.Only.Has(FactMarks.Inexact));
        Assert.Equal("AG2115", read.Codes);
    }

    [Fact]
    public void A_setting_code_marks_its_fact() =>
        Assert.True(Some.Read(Some.Observation("20077-4", Some.Quantity("5", "cmH2O"), system: "http://loinc.org")).Only.Has(FactMarks.Setting));

    [Fact]
    public void A_member_given_twice_counts_by_its_last_and_is_told()
    {
        var read = Some.Read(Some.Observation("pass-count", "\"valueInteger\":1,\"valueInteger\":2"));

        Assert.Equal("2", Read.InWords(read.Only.Value));
        Assert.Equal("AG2116", read.Codes);
    }

    [Theory]
    [InlineData("\"occurrenceTiming\":{\"repeat\":{\"frequency\":1,\"period\":4,\"periodUnit\":\"h\"}}", "order-interval=4 h; order-by-clock=yes")]
    [InlineData("\"occurrenceTiming\":{\"repeat\":{\"frequency\":1,\"period\":4,\"periodMax\":6,\"periodUnit\":\"h\"}},\"asNeededBoolean\":true", "order-as-needed=yes; order-interval=4 h; order-by-clock=no")]
    [InlineData("\"occurrenceTiming\":{\"repeat\":{\"frequency\":3,\"period\":1,\"periodUnit\":\"d\"}}", "order-interval=8 h; order-by-clock=yes")]
    [InlineData("\"occurrenceTiming\":{\"repeat\":{\"frequency\":1,\"period\":30,\"periodUnit\":\"min\"}}", "order-interval=0.5 h; order-by-clock=yes")]
    [InlineData("\"occurrenceTiming\":{\"code\":{\"coding\":[{\"code\":\"BID\"}]}}", "order-interval=12 h; order-by-clock=yes")]
    [InlineData("\"asNeededCodeableConcept\":{\"text\":\"secretions heard\"}", "order-as-needed=yes; order-by-clock=no")]
    [InlineData("\"doNotPerform\":true", "order-do-not-suction=yes")]
    [InlineData("\"note\":[{\"text\":\"q2h\"}]", "order-interval=2 h; order-by-clock=yes")]
    public void An_order_says_when_suction_falls_due(string members, string facts)
    {
        var read = Some.Read($$"""
            {"resourceType":"ServiceRequest","id":"s","status":"active","intent":"plan","code":{"text":"Suction ETT"},
             "subject":{"reference":"Patient/p1"},"authoredOn":"2026-03-01T08:00:00Z",{{members}}}
            """);

        Assert.Equal(
            ("order-status=active; order-intent=proposal; " + facts).TrimEnd(' ', ';'),
            string.Join("; ", read.Reading.Facts.Select(fact => $"{fact.Concept}={Read.InWords(fact.Value)}")));
        Assert.Empty(read.Codes);
    }

    [Theory]
    [InlineData("{\"text\":\"Oral suction with Yankauer\"}", 0)]
    [InlineData("{\"text\":\"Nasogastric suction\"}", 0)]
    [InlineData("{\"coding\":[{\"system\":\"http://snomed.info/sct\",\"code\":\"232701003\"}],\"text\":\"Suction\"}", 0)]
    [InlineData("{\"coding\":[{\"system\":\"urn:local\",\"code\":\"9\"}],\"text\":\"Suctioning of tube\"}", 2)]
    [InlineData("{\"coding\":[{\"system\":\"http://snomed.info/sct\",\"code\":\"230040009\"}]}", 2)]
    [InlineData("{\"text\":\"Chest physiotherapy\"}", 0)]
    public void Only_orders_of_airway_suction_are_read(string code, int facts) =>
        Assert.Equal(facts, Some.Read($$"""
            {"resourceType":"ServiceRequest","id":"s","status":"active","intent":"order","code":{{code}},
             "subject":{"reference":"Patient/p1"},"authoredOn":"2026-03-01T08:00:00Z"}
            """).Reading.Facts.Count);

    [Theory]
    [InlineData("Procedure/sx-1", "completed", "not-done", "")]
    [InlineData("Procedure/sx-1", "completed", "entered-in-error", "AG2108")]
    [InlineData("DeviceUseStatement/dus-1", "active", "intended", "")]
    [InlineData("Encounter/e1", "in-progress", "planned", "")]
    [InlineData("Device/ett-1", "\"active\"", "\"entered-in-error\"", "AG2108")]
    public void A_status_that_says_it_does_not_hold_gives_nothing(string sample, string from, string to, string code)
    {
        var read = Some.Read(Samples.Of(sample).Replace(from, to, StringComparison.Ordinal));

        Assert.Empty(read.Reading.Facts);
        Assert.Empty(read.Reading.Links);
        Assert.Equal(code, read.Codes);
        Assert.False(read.Reading.Self.IsNone);
    }

    // A request for equipment that was part of it stands alone: what is entered in error holds nothing.
    [Fact]
    public void Of_an_order_entered_in_error_nothing_is_kept()
    {
        var read = Some.Read(Samples.Of("ServiceRequest/sr-1").Replace("\"active\"", "\"entered-in-error\"", StringComparison.Ordinal));

        Assert.Empty(read.Reading.Facts);
        Assert.Empty(read.Reading.Links);
        Assert.Equal("AG2108", read.Codes);
    }

    // An act that nobody can place in time is no pass: neither before all others nor at any other time.
    [Theory]
    [InlineData("{\"start\":{},\"end\":\"2026-03-10T08:00:08Z\"}")]
    [InlineData("{\"_start\":{\"extension\":[{\"url\":\"http://hl7.org/fhir/StructureDefinition/data-absent-reason\",\"valueCode\":\"unknown\"}]},\"end\":\"2026-03-10T08:00:08Z\"}")]
    [InlineData("{\"end\":\"2026-03-10T08:00:08Z\"}")]
    public void A_procedure_whose_period_has_no_start_has_no_time(string period)
    {
        var read = Some.Read($$"""
            {"resourceType":"Procedure","id":"a","status":"completed","code":{"coding":[{"system":"http://snomed.info/sct","code":"230040009"}]},
             "subject":{"reference":"Patient/p1"},"performedPeriod":{{period}}}
            """);

        Assert.Equal("AG2011", read.Codes);
        Assert.Empty(read.Reading.Facts);
        Assert.Empty(read.Reading.Links);
    }

    [Fact]
    public void A_bad_birth_date_is_a_problem() =>
        Assert.Equal("AG2101", Some.Read("{\"resourceType\":\"Patient\",\"id\":\"p\",\"birthDate\":\"1961-13-01\"}").Codes);

    [Fact]
    public void An_element_of_a_wrong_form_makes_the_resource_unreadable()
    {
        var read = Some.Read("{\"resourceType\":\"Device\",\"id\":\"d\",\"property\":{\"type\":{\"text\":\"x\"}},\"patient\":{\"reference\":\"Patient/p\"}}");

        Assert.Equal("AG2009", read.Codes);
        Assert.False(read.Reading.Readable);
        Assert.Empty(read.Reading.Links);
    }

    [Fact]
    public void A_deletion_names_what_is_gone()
    {
        var names = new EntityTable();
        var into = new Core.Ports.Reading();
        Some.Reader.Read(new Arrival(ArrivalKind.Deletion, "x", "Observation", "o9", "2", DateTimeOffset.UnixEpoch, KnownBy.Received, default), names, into);

        Assert.Equal("Observation/o9", names.NameOf(into.Self));
        Assert.Empty(into.Facts);
    }

    [Fact]
    public void Words_of_an_order_hold_what_its_codes_and_its_texts_say()
    {
        var words = new OrderWordsReader(Map).Read(Of("ServiceRequest/sr-1"))[0];
        var device = new OrderWordsReader(Map).Read(Of("DeviceRequest/dr-1"))[0];

        Assert.Equal(("ServiceRequest/sr-1", 4m, false, true, true), (words.Order, words.EveryHours, words.ByClock, words.AsNeeded, words.Preoxygenate));
        Assert.Equal((120m, "mm[Hg]", 14m, "closed", false), (words.VacuumHigh, words.VacuumUnit, words.CatheterFr, words.System, words.Saline));
        Assert.Empty(words.Unread);
        Assert.Equal((80m, 120m, "mm[Hg]", 14m, "closed"), (device.VacuumLow, device.VacuumHigh, device.VacuumUnit, device.CatheterFr, device.System));
        Assert.Empty(new OrderWordsReader(Map).Read(Of("Patient/p1")));
    }

    [Theory]
    [InlineData("Observation/fs-1", 0, "160 mmHg")]
    [InlineData("Observation/fs-2", 0, "14 Fr")]
    [InlineData("Observation/sx-1-secr", 1, "Copious sputum")]
    [InlineData("Device/ett-1", 1, "7.5 mm")]
    [InlineData("DeviceRequest/dr-1", 1, "80 mmHg to 120 mmHg")]
    [InlineData("Patient/p1", 0, "1961-05")]
    [InlineData("Observation/fs-1", 4, null)]
    public void The_words_of_a_value_are_as_charted(string sample, int ordinal, string? words) =>
        Assert.Equal(words, new ChartedText().ValueOf(Encoding.UTF8.GetBytes(Samples.Of(sample)), ordinal));

    [Theory]
    [InlineData("0.45", "\"code\":\"1\"", "0.45")]
    [InlineData("0.45", "\"unit\":\"1\",\"code\":\"1\"", "0.45")]
    [InlineData("45", "\"unit\":\"%\",\"code\":\"%\"", "45 %")]
    public void The_unit_of_a_bare_ratio_is_no_word(string value, string unit, string words)
    {
        var row = $$$"""{"resourceType":"Observation","status":"final","code":{"text":"x"},"valueQuantity":{"value":{{{value}}},"system":"http://unitsofmeasure.org",{{{unit}}}}}""";

        Assert.Equal(words, new ChartedText().ValueOf(Encoding.UTF8.GetBytes(row), 0));
    }

    private static Arrival Of(string sample) =>
        new(ArrivalKind.Resource, "input", null, null, null, DateTimeOffset.UnixEpoch, KnownBy.Import, Encoding.UTF8.GetBytes(Samples.Of(sample)));
}
