using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Reading;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>Every form a value may be charted in, and what becomes of it.</summary>
public sealed class ValueFormsTests
{
    [Theory]
    [InlineData("vacuum-pressure", "220", "mmHg", null, "220 mm[Hg]")]
    [InlineData("vacuum-pressure", "-120.50", null, "mm[Hg]", "-120.50 mm[Hg]")]
    [InlineData("vacuum-pressure", "20", "kPa", "kPa", "20 kPa")]
    [InlineData("vacuum-pressure", "120", "mm Hg", "mm[Hg]", "120 mm[Hg]")]
    [InlineData("vacuum-pressure", "120", "Torr", "mm[Hg]", "120 mm[Hg]")]
    [InlineData("vacuum-pressure", "120", "mm", "mm[Hg]", "120 mm[Hg]")]
    [InlineData("vacuum-pressure", "120", "hPa", "mbar", "120 mbar")]
    [InlineData("vacuum-pressure", "120", null, "mmHg", "120 mm[Hg]")]
    [InlineData("vacuum-set", "5", "inHg", null, "5 [in_i'Hg]")]
    [InlineData("full-line-vacuum", "-500", "mm Hg", null, "-500 mm[Hg]")]
    [InlineData("catheter-size", "14", "Fr", "[Ch]", "14 [Ch]")]
    [InlineData("catheter-size", "14", "F", null, "14 [Ch]")]
    [InlineData("tube-inner-diameter", "7.5", "mm", "mm", "7.5 mm")]
    [InlineData("insertion-depth", "30", "cm", null, "30 cm")]
    [InlineData("pass-duration", "12", "sec", null, "12 s")]
    [InlineData("pass-duration", "0.5", null, "min", "0.5 min")]
    [InlineData("pass-count", "3", null, "{count}", "3 {count}")]
    [InlineData("pass-count", "3", null, null, "3")]
    [InlineData("fio2", "40", null, "%", "40 %")]
    [InlineData("fio2", "0.3", null, "%", "0.3 %")]
    [InlineData("fio2", "0.4", null, null, "0.4")]
    [InlineData("preoxygenation", "100", "%", null, "100 %")]
    [InlineData("spo2", "96", null, null, "96 %")]
    [InlineData("peep", "10", "cmH2O", null, "10 cm[H2O]")]
    [InlineData("heart-rate", "88", null, "/min", "88 /min")]
    [InlineData("saline-instilled", "5", "cc", null, "5 mL")]
    [InlineData("body-weight", "812", null, "g", "812 g")]
    [InlineData("gestational-age-at-birth", "29", null, "wk", "29 wk")]
    [InlineData("inner-cannula-diameter", "0", null, "mm", "0 mm")]
    public void A_quantity_is_kept_as_charted(string concept, string number, string? unit, string? code, string expected)
    {
        var read = Some.Read(Some.Observation(concept, Some.Quantity(number, unit, code)));

        Assert.Equal(expected, Read.InWords(read.Only.Value));
        Assert.Empty(read.Codes);
        Assert.Equal(concept, read.Only.Concept.Code);
    }

    // The code once won over a text that says otherwise. A person read the text, a machine wrote the code, and no one can tell from
    // here which is wrong: a vacuum of 20 is 20 mm[Hg] or 150. So the unit counts as missing, and no default of the row mends it.
    [Theory]
    [InlineData("vacuum-pressure", "20", "mmHg", "kPa", "20")]
    [InlineData("vacuum-pressure", "20", "kPa", "mm[Hg]", "20")]
    [InlineData("vacuum-pressure", "-20", "cmH2O", "mm[Hg]", "-20")]
    [InlineData("vacuum-set", "20", "mmHg", "kPa", "20")]
    [InlineData("full-line-vacuum", "400", "mmHg", "mbar", "400")]
    [InlineData("cuff-pressure", "25", "mmHg", "cm[H2O]", "unreadable")]
    [InlineData("pass-duration", "12", "min", "s", null)]
    [InlineData("body-weight", "812", "kg", "g", null)]
    [InlineData("tube-length", "30", "mm", "cm", null)]
    [InlineData("tube-inner-diameter", "24", "Fr", "mm", "unreadable")]
    [InlineData("fio2", "40", "%", "1", "40")]
    public void A_unit_whose_text_and_code_differ_is_not_guessed(string concept, string number, string unit, string code, string? expected)
    {
        var read = Some.Read(Some.Observation(concept, Some.Quantity(number, unit, code)));

        Assert.Equal("AG2119", read.Codes);
        Assert.Equal(expected, read.Reading.Facts.Select(fact => Read.InWords(fact.Value)).SingleOrDefault());
        Assert.DoesNotContain(number, read.Reading.Problems[0].Why, StringComparison.Ordinal);
    }

    [Fact]
    public void A_rows_default_unit_settles_no_difference_and_a_code_without_system_differs_too()
    {
        var ofRow = Some.Read(Some.Observation("rt-wall-vac", Some.Quantity("20", "mmHg", "kPa"), system: Some.Row));
        var bare = Some.Read(Some.Observation("vacuum-pressure", "\"valueQuantity\":{\"value\":20,\"unit\":\"mmHg\",\"code\":\"kPa\"}"));
        var local = Some.Read(Some.Observation("vacuum-pressure", "\"valueQuantity\":{\"value\":20,\"unit\":\"mmHg\",\"system\":\"urn:local\",\"code\":\"kPa\"}"));

        Assert.Equal(("20", "AG2119"), (Read.InWords(ofRow.Only.Value), ofRow.Codes));
        Assert.Equal(("20", "AG2119"), (Read.InWords(bare.Only.Value), bare.Codes));
        Assert.Equal(("20 mm[Hg]", ""), (Read.InWords(local.Only.Value), local.Codes));
    }

    [Fact]
    public void A_person_sees_both_units_where_they_differ()
    {
        var both = Some.Observation("vacuum-pressure", Some.Quantity("20", "mmHg", "kPa"));
        var same = Some.Observation("vacuum-pressure", Some.Quantity("20", "mmHg", "mm[Hg]"));

        Assert.Equal("20 mmHg (coded kPa)", new ChartedText().ValueOf(System.Text.Encoding.UTF8.GetBytes(both), 0));
        Assert.Equal("20 mmHg", new ChartedText().ValueOf(System.Text.Encoding.UTF8.GetBytes(same), 0));
    }

    [Theory]
    [InlineData("vacuum-pressure", "220 mmHg", "220 mm[Hg]")]
    [InlineData("vacuum-pressure", " -120mm Hg ", "-120 mm[Hg]")]
    [InlineData("vacuum-pressure", "−120 mmHg", "-120 mm[Hg]")]
    [InlineData("vacuum-pressure", "+80 mmHg", "80 mm[Hg]")]
    [InlineData("vacuum-pressure", "13,3 kPa", "13.3 kPa")]
    [InlineData("vacuum-pressure", "< 150 mmHg", "<150 mm[Hg]")]
    [InlineData("vacuum-pressure", "less than 150 mmHg", "<150 mm[Hg]")]
    [InlineData("vacuum-pressure", ">=200 mmHg", ">=200 mm[Hg]")]
    [InlineData("catheter-size", "14 Fr", "14 [Ch]")]
    [InlineData("catheter-size", "Fr 14", "14 [Ch]")]
    [InlineData("catheter-size", "FG12", "12 [Ch]")]
    [InlineData("catheter-size", "10Ch", "10 [Ch]")]
    [InlineData("catheter-size", "8 F", "8 [Ch]")]
    [InlineData("tube-inner-diameter", "7.5mm", "7.5 mm")]
    [InlineData("tube-depth", "23cm", "23 cm")]
    [InlineData("pass-duration", "12 sec", "12 s")]
    [InlineData("fio2", "40%", "40 %")]
    [InlineData("fio2", "0.4", "0.4")]
    [InlineData("preoxygenation", "Yes", "yes")]
    [InlineData("saline-instilled", "no", "no")]
    [InlineData("saline-instilled", "3 ml", "3 mL")]
    public void A_text_that_is_wholly_a_number_with_its_unit_is_read(string concept, string text, string expected)
    {
        var read = Some.Read(Some.Observation(concept, $"\"valueString\":\"{text}\""));

        Assert.Equal(expected, Read.InWords(read.Only.Value));
        Assert.Empty(read.Codes);
    }

    [Theory]
    [InlineData("vacuum-pressure", "l20 mmHg")]
    [InlineData("vacuum-pressure", "80-120 mmHg")]
    [InlineData("vacuum-pressure", "120 mmHg and rising")]
    [InlineData("vacuum-pressure", "1.2.3 mmHg")]
    [InlineData("vacuum-set", "about 120 mmHg")]
    [InlineData("pass-duration", "12 to 15 sec")]
    [InlineData("vacuum-pressure", "F 14")]
    public void A_vacuum_or_duration_that_cannot_be_read_stays_as_unreadable_with_a_problem(string concept, string text)
    {
        var read = Some.Read(Some.Observation(concept, $"\"valueString\":\"{text}\""));

        Assert.Equal(ValueKind.Unreadable, read.Only.Value.Kind);
        Assert.Equal("AG2101", read.Codes);
        Assert.True(read.Reading.Readable);
        Assert.DoesNotContain(text, read.Reading.Problems[0].Why, StringComparison.OrdinalIgnoreCase);
    }

    [Theory]
    [InlineData("catheter-size", "\"valueString\":\"14 gauge\"", "AG2103")]
    [InlineData("catheter-size", "\"valueInteger\":14", "AG2104")]
    [InlineData("heart-rate", "\"valueQuantity\":{\"value\":88}", "AG2104")]
    [InlineData("pass-duration", "\"valueQuantity\":{\"value\":12}", "AG2104")]
    [InlineData("tube-length", "\"valueQuantity\":{\"value\":-3,\"unit\":\"cm\"}", "AG2117")]
    [InlineData("fio2", "\"valueQuantity\":{\"value\":15,\"unit\":\"%\"}", "AG2106")]
    [InlineData("fio2", "\"valueString\":\"0.2\"", "AG2106")]
    [InlineData("fio2", "\"valueBoolean\":true", "AG2101")]
    [InlineData("suction-system", "\"valueString\":\"ajar\"", "AG2102")]
    [InlineData("suction-system", "\"valueBoolean\":true", "AG2101")]
    [InlineData("suction-pass", "\"valueString\":\"twice\"", "AG2101")]
    [InlineData("calibrated-on", "\"valueString\":\"May\"", "AG2101")]
    [InlineData("peep", "\"valueQuantity\":{\"value\":5,\"unit\":\"cmH2O\",\"comparator\":\"ad\"}", "AG2101")]
    [InlineData("peep", "\"valueQuantity\":{\"value\":\"5\",\"unit\":\"cmH2O\"}", "AG2101")]
    [InlineData("peep", "\"valueQuantity\":{\"unit\":\"cmH2O\"}", "AG2101")]
    public void Any_other_value_that_cannot_be_used_is_a_problem_and_no_fact(string concept, string value, string code)
    {
        var read = Some.Read(Some.Observation(concept, value));

        Assert.Empty(read.Reading.Facts);
        Assert.Equal(code, read.Codes);
        Assert.True(read.Reading.Readable);
    }

    [Theory]
    [InlineData("\"valueQuantity\":{\"value\":160}", "160", "AG2104")]
    [InlineData("\"valueQuantity\":{\"value\":160,\"unit\":\"torr\"}", "160 ?", "AG2103")]
    [InlineData("\"valueQuantity\":{\"value\":160,\"unit\":\"cm\"}", "160 ?", "AG2114")]
    [InlineData("\"valueInteger\":160", "160", "AG2104")]
    [InlineData("\"valueString\":\"160\"", "160", "AG2104")]
    public void A_vacuum_of_doubtful_unit_is_kept_without_a_guess(string value, string expected, string code)
    {
        var read = Some.Read(Some.Observation("vacuum-pressure", value));

        Assert.Equal(expected, Read.InWords(read.Only.Value));
        Assert.Equal(code, read.Codes);
    }

    [Fact]
    public void An_outlets_vacuum_without_unit_is_kept_too_so_that_its_supply_is_told_to_be_open()
    {
        var read = Some.Read(Some.Observation("full-line-vacuum", "\"valueQuantity\":{\"value\":350}"));

        Assert.Equal("350", Read.InWords(read.Only.Value));
        Assert.Equal("AG2104", read.Codes);
    }

    [Fact]
    public void A_missing_unit_is_the_rows_default_and_marked_so()
    {
        var read = Some.Read(Some.Observation("rt-wall-vac", Some.Quantity("160"), system: Some.Row));

        Assert.Equal("160 mm[Hg]", Read.InWords(read.Only.Value));
        Assert.True(read.Only.Has(FactMarks.UnitFromRow));
        Assert.Equal(Some.Row + "|rt-wall-vac", read.Names.NameOf(new Entity(EntityKind.RowCode, read.Only.Value.Symbol)));
    }

    [Fact]
    public void A_negative_vacuum_is_marked_and_beside_a_comparator_is_unreadable()
    {
        var marked = Some.Read(Some.Observation("vacuum-pressure", Some.Quantity("-120", "mmHg")));
        var doubtful = Some.Read(Some.Observation("vacuum-pressure", Some.Quantity("-120", "mmHg", comparator: "<")));

        Assert.True(marked.Only.Has(FactMarks.Negative));
        Assert.Equal(ValueKind.Unreadable, doubtful.Only.Value.Kind);
    }

    [Theory]
    [InlineData("regulator-mode", "full-line", "full-line")]
    [InlineData("regulator-mode", " Full-Line ", "full-line")]
    [InlineData("secretion-amount", "None", "none")]
    [InlineData("secretion-amount", "Large", "copious")]
    [InlineData("secretion-appearance", "Frankly bloody sputum", "frank-blood")]
    [InlineData("suction-indication", "specimen", "specimen")]
    [InlineData("suction-indication", "Rattling chest", "text")]
    [InlineData("suction-indication", "per order, secretions heard at the mouth of the tube", "text")]
    [InlineData("allowance-reason", "emergency", "emergency")]
    public void An_answer_is_its_code_or_a_text_equal_to_it_or_to_a_mapped_one(string concept, string text, string expected)
    {
        Assert.Equal(expected, Read.InWords(Some.Read(Some.Observation(concept, $"\"valueString\":\"{text}\"")).Only.Value));
        Assert.Equal(expected, Read.InWords(Some.Read(Some.Observation(concept, $$"""
            "valueCodeableConcept":{"text":"{{text}}"}
            """)).Only.Value));
    }

    [Theory]
    [InlineData("Routine")]
    [InlineData("scheduled")]
    [InlineData("per order")]
    [InlineData("Per protocol.")]
    [InlineData("q2h")]
    [InlineData("Every four hours")]
    [InlineData("due")]
    [InlineData("every 4 hours")]
    [InlineData("none")]
    [InlineData("-")]
    public void A_text_that_only_says_routine_is_no_indication(string text)
    {
        var read = Some.Read(Some.Observation("suction-indication", $"\"valueString\":\"{text}\""));

        Assert.Empty(read.Reading.Facts);
        Assert.Equal("AG2102", read.Codes);
    }

    [Theory]
    [InlineData("http://snomed.info/sct", "248599002", "secretion-amount", "copious")]
    [InlineData("urn:oid:2.16.840.1.113883.6.96", "6686005", "secretion-appearance", "blood-streaked")]
    [InlineData("http://loinc.org", "LA18002-8", "airway-type", "tracheal-tube")]
    [InlineData("https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer", "occluded", "vacuum-reading-method", "occluded")]
    [InlineData("https://willowmere.example.org/charting/answer", "a-int", "regulator-mode", "intermittent")]
    public void A_coded_answer_is_read_by_its_map(string system, string code, string concept, string expected)
    {
        var read = Some.Read(Some.Observation(concept, $$"""
            "valueCodeableConcept":{"coding":[{"system":"http://elsewhere.example.org","code":"x"},{"system":"{{system}}","code":"{{code}}"}]}
            """));

        Assert.Equal(expected, Read.InWords(read.Only.Value));
    }

    [Fact]
    public void An_answer_of_another_concept_is_not_taken()
    {
        var read = Some.Read(Some.Observation("secretion-amount", """
            "valueCodeableConcept":{"coding":[{"system":"http://snomed.info/sct","code":"6686005"}]}
            """));

        Assert.Equal(FactValue.Unreadable, read.Only.Value);
        Assert.Equal("AG2102", read.Codes);
    }

    [Theory]
    [InlineData("", "absent")]
    [InlineData("\"valueBoolean\":true", "yes")]
    [InlineData("\"valueBoolean\":false", "no")]
    [InlineData("\"valueString\":\"TRUE\"", "yes")]
    [InlineData("\"dataAbsentReason\":{\"coding\":[{\"code\":\"not-performed\"}]}", "notperformed")]
    public void A_pass_row_says_that_there_was_one_or_none(string value, string expected) =>
        Assert.Equal(expected, Read.InWords(Some.Read(Some.Observation("suction-pass", value)).Only.Value));

    [Theory]
    [InlineData("2025-05-01", "date 20250501/8")]
    [InlineData("2025-05", "date 20250500/6")]
    [InlineData("2025-05-01T10:00:00Z", "date 20250501/8")]
    public void A_calibration_date_is_kept_in_its_precision(string date, string expected) =>
        Assert.Equal(expected, Read.InWords(Some.Read(Some.Observation("calibrated-on", $"\"valueDateTime\":\"{date}\"")).Only.Value));
}
