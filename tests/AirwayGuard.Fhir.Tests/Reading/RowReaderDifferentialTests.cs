using System.Text;
using System.Text.Json;
using AirwayGuard.Core.Charting;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using CsCheck;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>Whatever the row reader takes, the SDK's parse of the same bytes must say the same, problems included.</summary>
public sealed class RowReaderDifferentialTests
{
    private static readonly Gen<string> Members = Pick.From(
        "\"meta\":{\"versionId\":\"2\",\"lastUpdated\":\"2026-03-01T00:00:00Z\",\"security\":[{\"system\":\"x\",\"code\":\"R\"}]}",
        "\"meta\":{\"security\":[{\"system\":\"http://terminology.hl7.org/CodeSystem/v3-ActReason\",\"code\":\"HTEST\"}]}",
        "\"identifier\":[{\"use\":\"official\"},{\"system\":\"urn:oid:1.2.3\",\"value\":\"row/881/2026-03-01/31\"}]",
        "\"identifier\":[{\"value\":\"https://elsewhere.example.org/row/1\"}]",
        "\"encounter\":{\"reference\":\"Encounter/e1\"}", "\"encounter\":{\"display\":\"ward\"}",
        "\"device\":{\"reference\":\"DeviceMetric/m1\"}", "\"device\":{\"reference\":\"https://a.example.org/fhir/Device/d1/_history/3\"}",
        "\"partOf\":[{\"reference\":\"Procedure/s1\"},{\"reference\":\"MedicationAdministration/x\"}]",
        "\"hasMember\":[{\"reference\":\"Observation/m1\"},{\"reference\":\"urn:uuid:0c1b7c8e-0000-4000-8000-000000000001\"}]",
        "\"focus\":[{\"reference\":\"Device/ett\"}]", "\"basedOn\":[{\"reference\":\"ServiceRequest/sr\"}]",
        "\"category\":[{\"coding\":[{\"system\":\"c\",\"code\":\"vital-signs\"}]}]", "\"issued\":\"2026-03-01T10:00:00Z\"",
        "\"performer\":[{\"reference\":\"Practitioner/n1\"}]", "\"note\":[{\"text\":\"line\\nline \\\"two\\\"\"}]",
        "\"note\":[{\"authorString\":\"a\",\"authorReference\":{\"reference\":\"Practitioner/n\"},\"text\":\"x\"}]",
        "\"extension\":[{\"url\":\"http://e.example.org\",\"valueString\":\"a\"}]", "\"extension\":[{\"url\":\"u\",\"valueString\":\"a\",\"valueCode\":\"b\"}]",
        "\"modifierExtension\":[{\"url\":\"http://e.example.org\",\"valueBoolean\":true}]", "\"contained\":[{\"resourceType\":\"Patient\",\"id\":\"c\"}]",
        "\"dataAbsentReason\":{\"coding\":[{\"code\":\"not-performed\"}]}", "\"text\":{\"status\":\"generated\",\"div\":\"<div xmlns=\\\"http://www.w3.org/1999/xhtml\\\">a</div>\"}",
        "\"unheardOf\":3", "\"Encounter\":{\"reference\":\"Encounter/e2\"}", "\"component\":[]", "\"method\":null", "\"_status\":{\"id\":\"s\"}",
        "\"referenceRange\":[{\"low\":{\"value\":1},\"low\":{\"value\":2}}]", "\"bodySite\":{\"text\":\"\\u00e9\"}", "\"interpretation\":[[]]",
        "\"component\":[{\"code\":{\"coding\":[{\"system\":\"http://loinc.org\",\"code\":\"3150-0\"}]},\"valueQuantity\":{\"value\":40,\"unit\":\"%\"}},{\"code\":{\"text\":\"x\"},\"valueString\":\"y\"}]",
        "\"component\":[{\"code\":{\"coding\":[{\"system\":\"https://airwayguard.example.org/fhir/CodeSystem/airway-care\",\"code\":\"vacuum-reading-method\"}]},\"valueCodeableConcept\":{\"text\":\"occluded\"},\"interpretation\":[{\"text\":\"i\"}]}]",
        "\"component\":[{\"code\":{\"coding\":[{\"system\":\"https://airwayguard.example.org/fhir/CodeSystem/airway-care\",\"code\":\"suction-pass\"}]},\"modifierExtension\":[{\"url\":\"u\",\"valueBoolean\":true}]}]",
        "\"component\":[{\"code\":{\"coding\":[{\"system\":\"https://airwayguard.example.org/fhir/CodeSystem/airway-care\",\"code\":\"fio2\"}]},\"dataAbsentReason\":{\"coding\":[{\"code\":\"not-performed\"}]}}]");

    private static readonly Gen<string> Values = Gen.OneOf(
        Pick.From(
            "", "\"valueQuantity\":{\"value\":220,\"unit\":\"mmHg\"}", "\"valueQuantity\":{\"value\":-1.20e2,\"system\":\"http://unitsofmeasure.org\",\"code\":\"mm[Hg]\",\"comparator\":\"<\"}",
            "\"valueQuantity\":{\"value\":\"220\"}", "\"valueQuantity\":{\"value\":1e40}", "\"valueQuantity\":{\"unit\":\"mmHg\"}", "\"valueQuantity\":{}",
            "\"valueQuantity\":{\"value\":1.123456789012345678901234567890}", "\"valueQuantity\":{\"value\":1e-20,\"unit\":\"kPa\"}", "\"valueQuantity\":220", "\"valueString\":3", "\"valueString\":\"\"", "\"valueString\":null",
            "\"valueInteger\":3", "\"valueInteger\":3.0", "\"valueInteger\":99999999999", "\"valueBoolean\":true", "\"valueBoolean\":\"true\"",
            "\"valueRange\":{\"low\":{\"value\":1}}", "\"valueDateTime\":\"2026-01-02\"", "\"valuePeriod\":{\"start\":\"2026-01-02\"}", "\"valueTime\":\"10:00:00\"",
            "\"valueString\":\"a\",\"valueInteger\":1", "\"valueInteger\":1,\"valueInteger\":2", "\"valueMoney\":{\"value\":3}", "\"valueFoo\":\"x\"",
            "\"valueCodeableConcept\":{\"coding\":[{\"system\":\"http://snomed.info/sct\",\"code\":\"248599002\",\"display\":\"Copious\"}],\"text\":\"lots\"}",
            "\"valueCodeableConcept\":{\"text\":\"Frothy\"}", "\"valueCodeableConcept\":{\"coding\":{\"code\":\"x\"}}", "\"valueString\":\"14\\u0020Fr\""),
        Gen.Select(Pick.From("", "-", "−", "< ", "less than ", "Fr "), Gen.Int[0, 400], Pick.From(" mmHg", "mmHg", " Fr", "", " kPa", " and more", "%"))
            .Select((sign, number, unit) => $"\"valueString\":\"{sign}{number}{unit}\""),
        Gen.Select(Gen.Decimal[-300, 300], Pick.From("mmHg", "kPa", "%", "mm", "Fr", "s", "torr"))
            .Select((number, unit) => $"\"valueQuantity\":{{\"value\":{Math.Round(number, 3).ToString(System.Globalization.CultureInfo.InvariantCulture)},\"unit\":\"{unit}\"}}"));

    private static readonly Gen<string> Times = Pick.From(
        "\"effectiveDateTime\":\"2026-03-01T09:55:00+11:00\"", "\"effectiveDateTime\":\"2026-03-01T09:55:00.1234567891Z\"", "\"effectiveDateTime\":\"2026-03-01\"",
        "\"effectiveDateTime\":\"2026-03-01T09:55:00\"", "\"effectiveDateTime\":\"soon\"", "\"effectiveInstant\":\"2026-03-01T09:55:00Z\"",
        "\"effectivePeriod\":{\"start\":\"2026-03-01T09:55:00Z\",\"end\":\"2026-03-01T09:55:12Z\"}", "\"effectivePeriod\":{\"start\":\"2026-03-01T09:55:00Z\"}",
        "\"effectivePeriod\":{\"end\":\"2026-03-01T09:55:00Z\"}", "\"effectivePeriod\":{\"start\":\"2026-03-01T09:55:12Z\",\"end\":\"2026-03-01T09:55:00Z\"}",
        "\"effectiveTiming\":{\"event\":[\"2026-03-01T09:55:00Z\"]}", "", "\"effectiveDateTime\":\"2026-03-01T09:55:00Z\",\"effectiveInstant\":\"2026-03-01T09:55:00Z\"");

    private static readonly Gen<string> Subjects = Pick.From(
        "\"subject\":{\"reference\":\"Patient/p1\"}", "\"subject\":{\"reference\":\"Patient/p1\",\"display\":\"x\"}", "\"subject\":{\"reference\":\"Location/l1\"}",
        "\"subject\":{\"reference\":\"Device/d\"}", "\"subject\":{\"reference\":\"Group/g\"}", "\"subject\":{\"identifier\":{\"value\":\"1\"}}", "", "\"subject\":\"Patient/p1\"",
        "\"subject\":{\"reference\":\"#c\"}", "\"subject\":{\"reference\":\"urn:uuid:0c1b7c8e-0000-4000-8000-000000000002\"}", "\"subject\":{\"reference\":\"Patient?identifier=1\"}");

    private static readonly Gen<string> Statuses = Pick.From(
        "\"status\":\"final\"", "\"status\":\"final\"", "\"status\":\"final\"", "\"status\":\"amended\"", "\"status\":\"entered-in-error\"", "\"status\":\"cancelled\"",
        "\"status\":\"finalised\"", "", "\"status\":null", "\"status\":\"final\",\"status\":\"amended\"");

    private static readonly Gen<string> Observations = Gen.Select(
        Pick.From(Concepts.Table.ToArray().Where(info => info.IsInput).Select(info => info.Code).Append("strange").ToArray()),
        Gen.Frequency((6, Values), (1, Gen.Const(""))), Gen.Frequency((5, Gen.Const("\"effectiveDateTime\":\"2026-03-01T09:55:00Z\"")), (3, Times)),
        Gen.Frequency((5, Gen.Const("\"subject\":{\"reference\":\"Patient/p1\"}")), (2, Subjects)), Statuses, Members.Array[0, 5],
        Gen.Frequency((2, Gen.Const("")), (1, Gen.Const(",{\"system\":\"http://loinc.org\",\"code\":\"79562-5\"}")), (1, Gen.Const(",{\"system\":\"urn:other\",\"code\":\"x\"}"))))
        .SelectMany(made => Gen.Shuffle(
            (string[])[
                $"\"code\":{{\"coding\":[{{\"system\":\"{Some.Own}\",\"code\":\"{made.Item1}\"}}{made.Item7}]}}",
                made.Item2, made.Item3, made.Item4, made.Item5, "\"id\":\"o1\"", .. made.Item6]))
        .Select(members => "{\"resourceType\":\"Observation\"," + string.Join(",", members.Where(member => member.Length > 0)) + "}");

    [Fact]
    public void The_row_reader_and_the_SDK_read_generated_rows_alike()
    {
        var (plain, all) = (0, 0);
        Observations.Sample(
            json =>
            {
                Interlocked.Increment(ref all);
                if (ReadPlain(json) is { } lines)
                {
                    Interlocked.Increment(ref plain);
                    Assert.Equal(ReadBySdk(json), lines, StringComparer.Ordinal);
                }
            },
            iter: 20_000,
            seed: "0000KOIPe303");

        // The comparison means something only if the row reader takes a good part of them.
        Assert.True(plain > all / 8, $"{plain} of {all} rows were plain.");
    }

    [Theory]
    [InlineData("\"code\":{\"coding\":[{\"system\":\"http://loinc.org\",\"code\":\"79562-5\"}]},\"valueString\":\"7.5mm\"")]
    [InlineData("\"component\":[{\"valueBoolean\":true,\"code\":{\"coding\":[{\"system\":\"https://airwayguard.example.org/fhir/CodeSystem/airway-care\",\"code\":\"suction-pass\"}]}}],\"code\":{\"text\":\"panel\"}")]
    [InlineData("\"code\":{\"coding\":[]},\"hasMember\":[{\"reference\":\"Observation/x\"}]")]
    public void Rows_made_by_hand_are_read_alike(string members)
    {
        var json = "{\"resourceType\":\"Observation\",\"id\":\"h\",\"status\":\"final\",\"subject\":{\"reference\":\"Patient/p1\"},\"effectiveDateTime\":\"2026-03-01T09:55:00Z\"," + members + "}";

        Assert.Equal(ReadBySdk(json), ReadPlain(json) ?? ["not plain"], StringComparer.Ordinal);
    }

    private static IReadOnlyList<string>? ReadPlain(string json)
    {
        var row = new ObservationRow();
        try
        {
            return RowReader.TryFill(Encoding.UTF8.GetBytes(json), row) ? Map(row) : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static IReadOnlyList<string> ReadBySdk(string json)
    {
        var resource = PocoParse.Read(Encoding.UTF8.GetBytes(json), out var isDoubled);
        if (resource is not Hl7.Fhir.Model.Observation observation)
        {
            return ["the SDK refuses it"];
        }

        var row = new ObservationRow();
        PocoRow.Fill(observation, row);
        return isDoubled ? ["a member stands twice"] : Map(row);
    }

    private static IReadOnlyList<string> Map(ObservationRow row)
    {
        var names = new EntityTable();
        var into = new Core.Ports.Reading();
        var scribe = new Scribe(ShippedMaps.WithDemoRows);
        scribe.Begin(names, into, "input.json", null);
        ObservationMapper.Map(row, scribe);
        return new Read(into, names).Lines;
    }
}
