using System.Globalization;
using System.Text;
using System.Text.Json;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Host.DemoWard;
using Hl7.Fhir.Serialization;
using Xunit;

namespace AirwayGuard.Host.Tests.DemoWard;

public class WardPlanTests
{
    private static readonly IReadOnlyList<WardResource> Plan = WardPlan.Build(WardJudging.End, 1);

    [Fact]
    public void The_same_end_and_seed_give_the_same_bytes()
    {
        var again = WardPlan.Build(WardJudging.End.ToOffset(TimeSpan.FromHours(-5)), 1);
        Assert.Equal(Plan.Select(Text), again.Select(Text), StringComparer.Ordinal);
    }

    [Fact]
    public void Another_seed_gives_another_ward() =>
        Assert.NotEqual(Plan.Select(Text), WardPlan.Build(WardJudging.End, 2).Select(Text), StringComparer.Ordinal);

    [Fact]
    public void There_are_some_three_thousand_resources_each_with_an_id_of_its_own()
    {
        Assert.InRange(Plan.Count, 2_700, 3_600);
        Assert.Equal(Plan.Count, Plan.DistinctBy(one => (one.Type, one.Id)).Count());
        Assert.Equal(12, Plan.Count(one => one.Type == "Patient"));
        Assert.Equal((WardPlan.MarkerType, WardPlan.MarkerId), (Plan[^1].Type, Plan[^1].Id));
    }

    [Fact]
    public void Every_resource_and_correction_is_strict_R4_under_its_own_type_and_id()
    {
        foreach (var one in Plan.Concat(WardPlan.Corrections(WardJudging.End, 1)))
        {
            var resource = FhirJsonDeserializer.STRICT.DeserializeResource(Text(one));
            Assert.Equal((one.Type, one.Id), (resource.TypeName, resource.Id));
        }
    }

    [Fact]
    public void Whatever_a_resource_refers_to_stands_before_it()
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var one in Plan)
        {
            Assert.All(References(Json(one)), reference => Assert.Contains(reference, seen));
            seen.Add($"{one.Type}/{one.Id}");
        }
    }

    [Fact]
    public void Rows_bear_the_displays_of_the_demo_map_but_for_a_few_that_no_map_knows()
    {
        var displays = Displays(group: 0);
        foreach (var row in WardRow.All.Except(WardRow.Unmapped, StringComparer.Ordinal))
        {
            Assert.Equal(displays[row], WardRow.Display(row));
        }

        Assert.DoesNotContain(WardRow.Unmapped, displays.ContainsKey);
        var charted = Rows().Select(row => Coding(row.GetProperty("code"))).ToList();
        Assert.Equal(
            WardRow.All.Order(StringComparer.Ordinal),
            charted.Select(row => row.Code).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal),
            StringComparer.Ordinal);
        Assert.All(charted, row => Assert.Equal(WardRow.System, row.System));
    }

    [Fact]
    public void Coded_answers_are_those_of_the_demo_map()
    {
        var displays = Displays(group: 1);
        var answers = Rows().Where(row => row.TryGetProperty("valueCodeableConcept", out _)).Select(row => row.GetProperty("valueCodeableConcept")).ToList();
        Assert.NotEmpty(answers);
        Assert.All(answers, answer => Assert.Equal(displays[Coding(answer).Code], answer.GetProperty("text").GetString()));
        Assert.All(answers, answer => Assert.Equal(WardAnswer.System, Coding(answer).System));
    }

    [Fact]
    public void Rows_are_charted_after_their_time_and_never_after_the_end_some_hours_late()
    {
        var lags = Rows().Select(row => (From: Time(row, "effectiveDateTime"), To: Time(row, "issued"))).ToList();
        Assert.All(lags, lag => Assert.True(lag.From < lag.To && lag.To <= WardJudging.End && lag.From >= WardJudging.End.AddHours(-48)));
        Assert.InRange(lags.Count(lag => lag.To - lag.From >= TimeSpan.FromHours(4)), 10, 100);
    }

    [Fact]
    public void Rows_come_in_the_order_in_which_they_were_charted()
    {
        var issued = Rows().Select(row => Time(row, "issued")).ToList();
        Assert.Equal(issued.Order(), issued);
    }

    [Fact]
    public void Monitors_write_at_plus_zero_and_staff_at_the_hospitals_offset()
    {
        var offsets = Rows().Select(row => row.GetProperty("effectiveDateTime").GetString()![^6..]).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal);
        Assert.Equal(["+00:00", "+02:00"], offsets, StringComparer.Ordinal);
    }

    [Fact]
    public void A_columns_rows_share_all_of_their_identifier_but_the_row()
    {
        foreach (var row in Rows())
        {
            var parts = row.GetProperty("identifier")[0].GetProperty("value").GetString()!.Split('/');
            Assert.Equal(4, parts.Length);
            Assert.Equal("col", parts[0]);
            Assert.Equal(row.GetProperty("encounter").GetProperty("reference").GetString(), "Encounter/" + parts[1]);
            Assert.Equal(Time(row, "effectiveDateTime").UtcDateTime.ToString("yyyyMMdd'T'HHmm", CultureInfo.InvariantCulture), parts[2]);
            Assert.Equal(Coding(row.GetProperty("code")).Code, parts[3]);
        }
    }

    [Fact]
    public void Ages_follow_the_end()
    {
        var births = Plan.Where(one => one.Type == "Patient")
            .ToDictionary(one => one.Id, one => DateOnly.Parse(Json(one).GetProperty("birthDate").GetString()!, CultureInfo.InvariantCulture), StringComparer.Ordinal);
        var end = DateOnly.FromDateTime(WardJudging.End.UtcDateTime);
        Assert.All(births.Where(one => one.Key.StartsWith("alder", StringComparison.Ordinal)), one => Assert.True(one.Value.AddYears(18) < end));
        Assert.All(births.Where(one => one.Key.StartsWith("rowan", StringComparison.Ordinal)), one => Assert.True(one.Value.AddYears(18) > end && one.Value.AddDays(29) < end));
        Assert.All(births.Where(one => one.Key.StartsWith("hazel", StringComparison.Ordinal)), one => Assert.True(one.Value.AddDays(28) > end));
    }

    [Fact]
    public void The_correction_is_a_second_version_of_a_row_of_the_plan()
    {
        var correction = Assert.Single(WardPlan.Corrections(WardJudging.End, 1));
        var first = Json(Assert.Single(Plan, one => one.Type == correction.Type && one.Id == correction.Id));
        var second = Json(correction);
        Assert.Equal(80, first.GetProperty("valueQuantity").GetProperty("value").GetInt32());
        Assert.Equal(8, second.GetProperty("valueQuantity").GetProperty("value").GetInt32());
        Assert.Equal("corrected", second.GetProperty("status").GetString());
        Assert.True(Time(second, "issued") > Time(first, "issued"));
    }

    [Theory]
    [InlineData("valueQuantity", "mmHg")]
    [InlineData("valueQuantity", "sec")]
    [InlineData("valueQuantity", "%")]
    [InlineData("valueQuantity", "kPa")]
    [InlineData("valueString", "14 Fr")]
    [InlineData("valueString", "7.5mm")]
    public void Values_stand_as_wards_write_them(string form, string words) => Assert.Contains(
        Rows(), row => row.TryGetProperty(form, out var value)
            && (value.ValueKind == JsonValueKind.String ? value.GetString() : value.TryGetProperty("unit", out var unit) ? unit.GetString() : "") == words);

    [Fact]
    public void Each_bed_has_an_outlet_and_all_but_one_were_read_before_the_ward_begins()
    {
        var outlets = Plan.Where(one => one.Type == "Device" && one.Id.StartsWith("outlet-", StringComparison.Ordinal)).Select(one => "Device/" + one.Id).ToList();
        var readings = Plan.Where(one => one.Type == "Observation").Select(Json).Where(row => !IsOfPatient(row)).ToList();
        Assert.Equal((12, 11), (outlets.Count, readings.Count));
        Assert.All(readings, row => Assert.Contains(row.GetProperty("subject").GetProperty("reference").GetString(), outlets, StringComparer.Ordinal));
        Assert.All(readings, row => Assert.InRange(WardJudging.End - Time(row, "effectiveDateTime"), TimeSpan.FromDays(3), TimeSpan.FromDays(30)));
    }

    private static IEnumerable<JsonElement> Rows() => Plan.Where(one => one.Type == "Observation").Select(Json).Where(IsOfPatient);

    private static bool IsOfPatient(JsonElement row) => row.GetProperty("subject").GetProperty("reference").GetString()!.StartsWith("Patient/", StringComparison.Ordinal);

    private static string Text(WardResource one) => Encoding.UTF8.GetString(one.Json.Span);

    private static JsonElement Json(WardResource one) => JsonElement.Parse(one.Json.Span);

    private static DateTimeOffset Time(JsonElement row, string name) => DateTimeOffset.Parse(row.GetProperty(name).GetString()!, CultureInfo.InvariantCulture);

    private static (string? System, string Code) Coding(JsonElement concept)
    {
        var coding = concept.GetProperty("coding")[0];
        return (coding.GetProperty("system").GetString(), coding.GetProperty("code").GetString()!);
    }

    private static Dictionary<string, string> Displays(int group) => JsonElement.Parse(ShippedMaps.DemoRows.Json.Span)
        .GetProperty("group")[group].GetProperty("element").EnumerateArray()
        .ToDictionary(element => element.GetProperty("code").GetString()!, element => element.GetProperty("display").GetString()!, StringComparer.Ordinal);

    private static IEnumerable<string> References(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => element.EnumerateObject().SelectMany(member =>
            member.Name == "reference" ? [member.Value.GetString()!] : References(member.Value)),
        JsonValueKind.Array => element.EnumerateArray().SelectMany(References),
        _ => [],
    };
}
