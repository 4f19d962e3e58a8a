using System.Text;
using AirwayGuard.Fhir.Reading;
using CsCheck;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>Orders read without the SDK's parse are the objects that it makes of the same bytes; what is not plain is left to it.</summary>
public sealed class PlainOrdersTests
{
    private const string Coded = "{\"coding\":[{\"system\":\"http://snomed.info/sct\",\"code\":\"230040009\",\"display\":\"Airway suction\"}],\"text\":\"Suction \\u0041irway\"}";

    // Plain in one of the types at least, and not plain.
    private static readonly string[] Members =
    [
        "\"id\":\"d1\"", "\"meta\":{\"versionId\":\"2\",\"lastUpdated\":\"2026-03-01T08:00:00Z\"}", "\"status\":\"draft\"", "\"status\":\"of our own\"", "\"intent\":\"order\"", "\"priority\":\"stat\"",
        "\"code\":" + Coded, "\"codeCodeableConcept\":{\"text\":\"Suction set\"}", "\"doNotPerform\":true", "\"asNeededBoolean\":false", "\"asNeededCodeableConcept\":{\"text\":\"secretions\"}",
        "\"subject\":{\"reference\":\"Patient/p1\",\"display\":\"A. B.\"}", "\"encounter\":{\"reference\":\"Encounter/e1\"}", "\"requester\":{\"display\":\"RT\"}", "\"authoredOn\":\"2026-03-01T08:00:00+01:00\"",
        "\"orderDetail\":[{\"text\":\"closed\"}," + Coded + "]", "\"basedOn\":[{\"reference\":\"ServiceRequest/s1\"}]", "\"replaces\":[{\"reference\":\"ServiceRequest/s0\"}]", "\"priorRequest\":[{\"reference\":\"DeviceRequest/e0\"}]",
        "\"reasonCode\":[" + Coded + "]", "\"bodySite\":[{\"text\":\"trachea\"}]", "\"category\":[{\"text\":\"care\"}]", "\"note\":[{\"text\":\"as needed\",\"time\":\"2026-03-01\"}]", "\"patientInstruction\":\"rest\"",
        "\"occurrenceDateTime\":\"2026-03-01\"", "\"occurrencePeriod\":{\"start\":\"2026-03-01T08:00:00Z\",\"end\":\"2026-03-02\"}",
        "\"parameter\":[{\"code\":" + Coded + ",\"valueQuantity\":{\"value\":220.50,\"unit\":\"mmHg\",\"system\":\"http://unitsofmeasure.org\",\"code\":\"mm[Hg]\"}},{\"code\":{\"text\":\"x\"},\"valueBoolean\":true},{\"code\":{\"text\":\"y\"},\"valueCodeableConcept\":" + Coded + "}]",
        "\"status\":\"\"", "\"status\":5", "\"status\":null", "\"status\":\"intent\"", "\"intent\":[\"order\"]", "\"subject\":\"note\"", "\"subject\":{}", "\"_status\":{\"id\":\"s\"}", "\"extension\":[{\"url\":\"u\",\"valueString\":\"a\"}]",
        "\"orderDetail\":[]", "\"orderDetail\":[null]", "\"orderDetail\":{\"text\":\"closed\"}", "\"note\":[{\"text\":\"x\",\"authorString\":\"y\"}]", "\"occurrenceTiming\":{\"repeat\":{\"frequency\":1,\"period\":2,\"periodUnit\":\"h\"}}",
        "\"parameter\":[{\"code\":{\"text\":\"x\"},\"valueQuantity\":{\"value\":1e2}}]", "\"parameter\":[{\"code\":{\"text\":\"x\"},\"valueQuantity\":{\"value\":\"220\",\"comparator\":\"<\"}}]", "\"parameter\":[{\"valueQuantity\":{\"value\":3}}]",
        "\"unheardOf\":1", "\"text\":{\"status\":\"generated\",\"div\":\"<div xmlns=\\\"http://www.w3.org/1999/xhtml\\\">a</div>\"}", "\"resourceType\":\"Patient\"", "\"code\":{\"text\":\"a\",\"text\":\"b\"}",
    ];

    [Fact]
    public void What_is_read_plainly_is_what_the_SDK_reads()
    {
        var (plain, all) = (0, 0);
        Gen.Select(Pick.From("ServiceRequest", "DeviceRequest"), Pick.From(Members).Array[0, 6]).Sample(
            made =>
            {
                var bytes = Encoding.UTF8.GetBytes($"{{{string.Join(", ", ((string[])[$"\"resourceType\":\"{made.Item1}\"", .. made.Item2]))}}}");
                Interlocked.Increment(ref all);
                if (PlainOrders.Read(bytes) is { } read)
                {
                    Interlocked.Increment(ref plain);
                    var expected = PocoParse.Read(bytes, FhirJsonDeserializer.RECOVERABLE, out var isDoubled);
                    Assert.False(isDoubled);
                    Assert.True(read.IsExactly(expected!), Encoding.UTF8.GetString(bytes));
                    Assert.Equal(((Base)expected!).ToJson(), ((Base)read).ToJson());
                }
            },
            iter: 20_000);

        Assert.InRange(plain, all / 10, all - (all / 10));
    }

    [Fact]
    public void An_order_as_an_order_entry_drafts_it_is_plain()
    {
        Assert.IsType<ServiceRequest>(Read("""{"resourceType":"ServiceRequest","id":"a","status":"active","intent":"order","code":{"text":"Suction"},"asNeededBoolean":true,"orderDetail":[{"text":"closed"}],"subject":{"reference":"Patient/p1"},"authoredOn":"2026-03-01T08:00:00Z"}"""));
        Assert.IsType<DeviceRequest>(Read("""{"resourceType":"DeviceRequest","codeCodeableConcept":{"text":"Suction set"},"parameter":[{"code":{"text":"vacuum"},"valueQuantity":{"value":-120,"unit":"mmHg"}}],"subject":{"reference":"Patient/p1"}}"""));
    }

    [Theory]
    [InlineData("{}")]
    [InlineData("[]")]
    [InlineData("3")]
    [InlineData("{\"id\":\"a\",\"resourceType\":\"ServiceRequest\"}")]
    [InlineData("{\"resourceType\":\"Observation\",\"id\":\"a\"}")]
    [InlineData("{\"resourceType\":\"ServiceRequest\",\"status\":\"draft\",\"status\":\"draft\"}")]
    [InlineData("{\"resourceType\":\"ServiceRequest\",\"occurrenceDateTime\":\"2026\",\"occurrencePeriod\":{\"start\":\"2026\"}}")]
    [InlineData("{\"resourceType\":\"DeviceRequest\",\"parameter\":[{\"code\":{\"text\":\"x\"},\"valueBoolean\":true,\"valueQuantity\":{\"value\":1}}]}")]
    public void What_is_not_is_left_to_the_SDK(string json) => Assert.Null(Read(json));

    private static Resource? Read(string json) => PlainOrders.Read(Encoding.UTF8.GetBytes(json));
}
