using AirwayGuard.Fhir.CdsHooks;

namespace AirwayGuard.Fhir.Tests.CdsHooks;

/// <summary>What cannot be used is told by its code and place; nothing that is sent makes the reader throw, and no message quotes it.</summary>
public sealed class HookFaultTests
{
    private const string Mark = "zq7Mark";

    [Theory]
    [InlineData("hook", null, "AG8103", "hook")]
    [InlineData("hook", "\"order-sign\"", "AG8103", "hook")]
    [InlineData("hook", "[\"order-select\"]", "AG8103", "hook")]
    [InlineData("hookInstance", null, "AG8104", "hookInstance")]
    [InlineData("hookInstance", "\"\"", "AG8104", "hookInstance")]
    [InlineData("hookInstance", "\" \"", "AG8104", "hookInstance")]
    [InlineData("hookInstance", "7", "AG8104", "hookInstance")]
    [InlineData("hookInstance", "\"a\\nb\"", "AG8104", "hookInstance")]
    [InlineData("context", null, "AG8104", "context")]
    [InlineData("context", "null", "AG8104", "context")]
    [InlineData("context", "[]", "AG8104", "context")]
    [InlineData("context.patientId", null, "AG8104", "context.patientId")]
    [InlineData("context.patientId", "1288992", "AG8104", "context.patientId")]
    [InlineData("context.patientId", "\"\"", "AG8104", "context.patientId")]
    [InlineData("context.patientId", "\"p 1\"", "AG8104", "context.patientId")]
    [InlineData("context.patientId", "\"../p1\"", "AG8104", "context.patientId")]
    [InlineData("context.patientId", "\"Practitioner/p1\"", "AG8104", "context.patientId")]
    [InlineData("context.patientId", "\"Patient/\"", "AG8104", "context.patientId")]
    [InlineData("context.encounterId", "5", "AG8104", "context.encounterId")]
    [InlineData("context.encounterId", "\"e?1\"", "AG8104", "context.encounterId")]
    [InlineData("context.draftOrders", null, "AG8104", "context.draftOrders")]
    [InlineData("context.draftOrders", "null", "AG8104", "context.draftOrders")]
    [InlineData("context.draftOrders", "[]", "AG8105", "context.draftOrders")]
    [InlineData("context.draftOrders", "\"Bundle\"", "AG8105", "context.draftOrders")]
    [InlineData("context.draftOrders", "{}", "AG8105", "context.draftOrders.resourceType")]
    [InlineData("context.draftOrders.resourceType", "\"Parameters\"", "AG8105", "context.draftOrders.resourceType")]
    [InlineData("context.draftOrders.resourceType", "5", "AG8105", "context.draftOrders.resourceType")]
    [InlineData("context.draftOrders.entry", "{}", "AG8105", "context.draftOrders.entry")]
    [InlineData("context.draftOrders.entry.0", "null", "AG8105", "context.draftOrders.entry[0]")]
    [InlineData("context.draftOrders.entry.0", "[]", "AG8105", "context.draftOrders.entry[0]")]
    [InlineData("context.draftOrders.entry.0.resource", "\"x\"", "AG8105", "context.draftOrders.entry[0].resource")]
    [InlineData("context.draftOrders.entry.0.resource.resourceType", null, "AG8105", "context.draftOrders.entry[0].resource.resourceType")]
    [InlineData("context.draftOrders.entry.0.resource.resourceType", "\"Device Request\"", "AG8105", "context.draftOrders.entry[0].resource.resourceType")]
    [InlineData("context.draftOrders.entry.0.resource.resourceType", "\"device_request\"", "AG8105", "context.draftOrders.entry[0].resource.resourceType")]
    [InlineData("context.selections", null, "AG8104", "context.selections")]
    [InlineData("context.selections", "null", "AG8104", "context.selections")]
    [InlineData("context.selections", "\"DeviceRequest/draft-1\"", "AG8104", "context.selections")]
    [InlineData("context.selections", "[\"DeviceRequest/draft-1\",5]", "AG8104", "context.selections[1]")]
    [InlineData("context.selections", "[\"\"]", "AG8104", "context.selections[0]")]
    [InlineData("fhirServer", null, "AG8104", "fhirServer")] // beside fhirAuthorization
    [InlineData("fhirServer", "5", "AG8104", "fhirServer")]
    [InlineData("fhirServer", "\"ehr.example.org/fhir\"", "AG8104", "fhirServer")]
    [InlineData("fhirServer", "\"/fhir\"", "AG8104", "fhirServer")]
    [InlineData("fhirServer", "\"ftp://ehr.example.org\"", "AG8104", "fhirServer")]
    [InlineData("fhirServer", "\"https://ehr.example.org/\\r\\nx\"", "AG8104", "fhirServer")]
    [InlineData("fhirAuthorization", "\"Bearer x\"", "AG8104", "fhirAuthorization")]
    [InlineData("fhirAuthorization.access_token", null, "AG8104", "fhirAuthorization.access_token")]
    [InlineData("fhirAuthorization.access_token", "\"\"", "AG8104", "fhirAuthorization.access_token")]
    [InlineData("fhirAuthorization.access_token", "\"a b\"", "AG8104", "fhirAuthorization.access_token")]
    [InlineData("fhirAuthorization.access_token", "\"a\\r\\nX: y\"", "AG8104", "fhirAuthorization.access_token")]
    [InlineData("fhirAuthorization.access_token", "\"é\"", "AG8104", "fhirAuthorization.access_token")]
    [InlineData("fhirAuthorization.token_type", null, "AG8104", "fhirAuthorization.token_type")]
    [InlineData("fhirAuthorization.token_type", "\"MAC\"", "AG8104", "fhirAuthorization.token_type")]
    [InlineData("prefetch", "[]", "AG8104", "prefetch")]
    [InlineData("prefetch", "\"x\"", "AG8104", "prefetch")]
    public void A_member_that_cannot_be_used_is_told_with_its_place(string path, string? json, string code, string where)
    {
        var (request, fault) = Ask.Read(Ask.With(Hook.OrderSelect, path, json), Hook.OrderSelect);

        Assert.Null(request);
        Assert.Equal((code, where, 400), (fault!.Code.Id, fault.Where, fault.Status));
    }

    [Theory]
    [InlineData(200, true)]
    [InlineData(201, false)]
    public void An_instance_has_at_most_200_characters(int length, bool isRead) =>
        Assert.Equal(isRead, Ask.Read(Ask.With(Hook.OrderSign, "hookInstance", $"\"{new string('a', length)}\"")).Request is not null);

    [Theory]
    [InlineData(64, true)]
    [InlineData(65, false)]
    public void An_id_has_at_most_64_characters(int length, bool isRead) =>
        Assert.Equal(isRead, Ask.Read(Ask.With(Hook.OrderSign, "context.patientId", $"\"{new string('a', length)}\"")).Request is not null);

    [Theory]
    [InlineData(100, true)]
    [InlineData(101, false)]
    public void A_prefetch_has_at_most_100_keys(int keys, bool isRead) => Assert.Equal(
        isRead, Ask.Read(Ask.With(Hook.OrderSign, "prefetch", "{" + string.Join(',', Enumerable.Range(0, keys).Select(i => $"\"k{i}\":null")) + "}")).Request is not null);

    [Theory]
    [InlineData(64, true)]
    [InlineData(65, false)]
    public void A_body_is_nested_at_most_64_levels(int levels, bool isRead) =>
        Assert.Equal(isRead, Ask.Read(Ask.With(Hook.OrderSign, "extension", new string('[', levels - 1) + new string(']', levels - 1)).ToJsonString()).Request is not null);

    [Theory]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData("[]")]
    [InlineData("null")]
    [InlineData("7")]
    [InlineData("\"x\"")]
    [InlineData("{")]
    [InlineData("{\"hook\"")]
    [InlineData("{\"hook\":")]
    [InlineData("{\"hook\":\"order-sign\",}")]
    [InlineData("{'hook':'order-sign'}")]
    [InlineData("{hook:1}")]
    [InlineData("{}{}")]
    [InlineData("{} x")]
    [InlineData("{/* x */}")]
    [InlineData("{\"a\":01}")]
    [InlineData("{\"a\":NaN}")]
    [InlineData("{\"a\":\"\n\"}")]
    [InlineData("{\"hook\":\"\\ud800\"}")]
    [InlineData("{\"\\ud800\":1}")]
    [InlineData("{\"a\":\"\\x\"}")]
    [InlineData("\u0000")]
    public void What_is_no_JSON_object_is_told_as_such(string body)
    {
        var (request, fault) = Ask.Read(body);

        Assert.Null(request);
        Assert.Equal(("AG8101", 400), (fault!.Code.Id, fault.Status));
    }

    [Theory]
    [InlineData("{", "{\"hook\":\"order-sign\",")]
    [InlineData("\"patientId\":", "\"patientId\":\"p2\",\"patientId\":")]
    [InlineData("\"patientId\":", "\"patient\\u0049d\":\"p2\",\"patientId\":")]
    [InlineData("\"access_token\":", "\"access_token\":\"x\",\"access_token\":")]
    [InlineData("\"entry\":", "\"entry\":[],\"entry\":")]
    [InlineData("\"resource\":", "\"resource\":{},\"resource\":")]
    [InlineData("\"status\":", "\"status\":\"active\",\"status\":")]
    [InlineData("\"reference\":", "\"reference\":\"Patient/p2\",\"reference\":")]
    [InlineData("\"airway\":", "\"airway\":{},\"airway\":")]
    public void A_member_given_twice_is_refused_on_every_level_with_its_place(string before, string instead)
    {
        var body = Ask.Whole(Hook.OrderSign).ToJsonString();
        var at = body.IndexOf(before, StringComparison.Ordinal);
        var doubled = body[..at] + instead + body[(at + before.Length)..];
        Assert.Null(Ask.Read(body).Fault);

        var fault = Ask.Read(doubled).Fault;

        Assert.Equal(("AG8101", "A member is given twice."), (fault!.Code.Id, fault.Why));
        Assert.StartsWith("line 1, byte ", fault.Where, StringComparison.Ordinal);
    }

    [Fact]
    public void Many_members_of_one_object_are_told_apart()
    {
        var members = string.Join(',', Enumerable.Range(0, 200).Select(i => $"\"m{i}\":0"));

        Assert.Null(Ask.Read(Ask.With(Hook.OrderSign, "extension", "{" + members + "}")).Fault);
        Assert.Equal("AG8101", Ask.Read(Ask.Whole(Hook.OrderSign).ToJsonString().Replace("{\"hook\":", "{\"extension\":{" + members + ",\"m7\":0},\"hook\":", StringComparison.Ordinal)).Fault?.Code.Id);
        Assert.Equal("AG8101", Ask.Read(Ask.Whole(Hook.OrderSign).ToJsonString().Replace("{\"hook\":", "{\"extension\":{" + members + ",\"m199\":0},\"hook\":", StringComparison.Ordinal)).Fault?.Code.Id);
    }

    [Theory]
    [InlineData("{\n \"hook\":\"order-sign\",\n  \"hook\":1}", "line 3, byte 3")]
    [InlineData("{\n  x}", "line 2, byte 3")]
    public void The_place_is_counted_from_one(string body, string where) => Assert.Equal(where, Ask.Read(body).Fault?.Where);

    [Fact]
    public void Bytes_that_are_no_UTF_8_are_refused_wherever_they_stand()
    {
        var body = Ask.Bytes(Ask.With(Hook.OrderSign, "extension", "{\"a\":\"#\"}"));
        body[Array.IndexOf(body, (byte)'#')] = 0xFF;

        Assert.Equal(("AG8101", "body"), HookRequestReader.Read(body, Hook.OrderSign).Fault is { } fault ? (fault.Code.Id, fault.Where) : default);
    }

    [Fact]
    public void Every_beginning_of_a_request_is_refused_and_none_throws()
    {
        var body = Ask.Bytes(Ask.Whole(Hook.OrderSelect));

        Assert.All(Enumerable.Range(0, body.Length), length => Assert.Equal("AG8101", HookRequestReader.Read(body.AsMemory(0, length), Hook.OrderSelect).Fault?.Code.Id));
    }

    [Fact]
    public void A_value_of_any_kind_in_any_place_throws_nothing_and_is_never_quoted()
    {
        string[] values = ["null", "true", "5", "1e400", $"\"{Mark}\"", "\"\\ud800\"", "[]", "{}", $"[[\"{Mark}\"]]", $"{{\"{Mark}\":1,\"b\":[null]}}", $"{{\"resourceType\":\"{Mark}\"}}", "-", ""];
        foreach (var hook in Enum.GetValues<Hook>())
        {
            var body = Ask.Whole(hook).ToJsonString();
            foreach (var changed in values.SelectMany(value => Ask.Changed(body, value)))
            {
                var (request, fault) = Ask.Read(changed, hook);

                Assert.NotEqual(request is null, fault is null);
                Assert.DoesNotContain(Mark, fault?.Where + fault?.Why, StringComparison.Ordinal);
            }
        }
    }
}
