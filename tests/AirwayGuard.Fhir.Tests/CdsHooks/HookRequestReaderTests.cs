using System.Text;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Fhir.CdsHooks;

namespace AirwayGuard.Fhir.Tests.CdsHooks;

/// <summary>What of a request is taken, and as what.</summary>
public sealed class HookRequestReaderTests
{
    [Fact]
    public void All_that_is_sent_is_read()
    {
        var (request, fault) = Ask.Read(Ask.Whole(Hook.OrderSelect), Hook.OrderSelect);

        Assert.Null(fault);
        Assert.Equal((Hook.OrderSelect, "0c1a3b7e-7a55-4f0e-9f43-52a1f2d1c001", "p1", "e1"), (request!.Hook, request.Instance, request.PatientId, request.EncounterId));
        Assert.Equal(("https://ehr.example.org/fhir", "opaque.token-1"), (request.FhirServer, request.Access?.Token));
        Assert.Equal(["DeviceRequest/draft-1"], request.Selections);
        Assert.Equal(("DeviceRequest", "draft-1", "context.draftOrders.entry[0].resource"), Assert.Single(request.Drafts) is var draft ? (draft.Type, draft.Id, draft.Where) : default);
        Assert.Equal(["airway", "patient"], request.Prefetch.Keys.Order(StringComparer.Ordinal), StringComparer.Ordinal);
    }

    [Fact]
    public void A_patient_view_has_no_orders_and_its_context_is_not_searched_for_any()
    {
        var (request, fault) = Ask.Read(Ask.With(Hook.PatientView, "context.draftOrders", "7"), Hook.PatientView);

        Assert.Null(fault);
        Assert.Empty(request!.Drafts);
    }

    [Fact]
    public void A_bundle_of_orders_without_a_type_is_read_as_the_standards_own_examples_have_it()
    {
        var (request, fault) = Ask.Read("""
            {"hook":"order-select","hookInstance":"5b0e","context":{"userId":"PractitionerRole/r7","patientId":"p1",
             "selections":["ServiceRequest/s1"],
             "draftOrders":{"resourceType":"Bundle","entry":[
               {"resource":{"resourceType":"ServiceRequest","id":"s1","status":"draft","code":{"text":"Suction tracheostomy"},"subject":{"reference":"Patient/p1"}}},
               {"resource":{"resourceType":"NutritionOrder","id":"n1","status":"draft","patient":{"reference":"Patient/p1"},"dateTime":"2026-03-01"}}]}}}
            """, Hook.OrderSelect);

        Assert.Null(fault);
        Assert.Equal(["ServiceRequest", "NutritionOrder"], request!.Drafts.Select(draft => draft.Type), StringComparer.Ordinal);
    }

    [Theory]
    [InlineData("{ \"resourceType\" : \"DeviceRequest\" ,\n \"n\": 1.50, \"s\": \"\\u0041\\/b\" }")]
    [InlineData("{\"n\":1e2,\"id\":\"x\",\"resourceType\":\"DeviceRequest\"}")]
    public void A_draft_is_the_bytes_that_were_sent(string draft)
    {
        var body = Ask.Whole(Hook.OrderSign).ToJsonString().Replace(Ask.Draft, draft, StringComparison.Ordinal);

        var (request, fault) = Ask.Read(body);

        Assert.Null(fault);
        Assert.Equal(draft, Ask.Text(Assert.Single(request!.Drafts).Body));
    }

    [Fact]
    public void A_byte_order_mark_is_passed_over_and_slices_stay_right()
    {
        var (request, _) = HookRequestReader.Read((byte[])[0xEF, 0xBB, 0xBF, .. Ask.Bytes(Ask.Whole(Hook.OrderSign))], Hook.OrderSign);

        Assert.Equal(Ask.Draft, Ask.Text(request!.Drafts[0].Body));
    }

    [Fact]
    public void A_name_written_with_escapes_is_the_name()
    {
        var (request, fault) = Ask.Read(Ask.Whole(Hook.OrderSign).ToJsonString().Replace("\"patientId\"", "\"patient\\u0049d\"", StringComparison.Ordinal));

        Assert.Null(fault);
        Assert.Equal("p1", request!.PatientId);
    }

    [Theory]
    [InlineData("extension", """{"org.example.x":[1,{"a":null}]}""")]
    [InlineData("hookVersion", "\"2.0\"")]
    [InlineData("context.extension", "{}")]
    [InlineData("context.userId", null)]
    [InlineData("context.userId", "5")]
    [InlineData("context.encounterId", null)]
    [InlineData("context.encounterId", "null")]
    [InlineData("context.patientId", "\"Patient/p1\"")]
    [InlineData("context.selections", "7")] // of another hook
    [InlineData("context.draftOrders.type", "\"collection\"")]
    [InlineData("context.draftOrders.type", "5")]
    [InlineData("context.draftOrders.entry.0.resource.id", null)]
    [InlineData("context.draftOrders.entry.0.fullUrl", "\"urn:uuid:1\"")]
    [InlineData("hookInstance", "\"no-uuid\"")]
    [InlineData("fhirAuthorization", null)]
    [InlineData("fhirAuthorization", "null")]
    [InlineData("fhirAuthorization.token_type", "\"bearer\"")]
    [InlineData("fhirAuthorization.expires_in", null)]
    [InlineData("fhirAuthorization.scope", null)]
    [InlineData("fhirAuthorization.subject", null)]
    [InlineData("fhirAuthorization.patient", "\"p1\"")]
    [InlineData("prefetch", null)]
    [InlineData("prefetch", "null")]
    [InlineData("prefetch", "{}")]
    public void What_may_be_missing_or_is_not_known_does_not_hinder(string path, string? json)
    {
        var (request, fault) = Ask.Read(Ask.With(Hook.OrderSign, path, json));

        Assert.Null(fault);
        Assert.Equal("p1", request!.PatientId);
    }

    [Theory]
    [InlineData("[]", 0)]
    [InlineData("null", 0)]
    [InlineData("[{}]", 0)]
    [InlineData("""[{"resource":null},{"resource":{"resourceType":"ServiceRequest"}}]""", 1)]
    public void An_entry_without_a_resource_is_passed_over(string entries, int drafts)
    {
        var (request, fault) = Ask.Read(Ask.With(Hook.OrderSign, "context.draftOrders.entry", entries));

        Assert.Null(fault);
        Assert.Equal(drafts, request!.Drafts.Length);
    }

    [Theory]
    [InlineData("DeviceRequest/draft-1", "DeviceRequest/draft-1")]
    [InlineData("https://ehr.example.org/fhir/DeviceRequest/draft-1", "DeviceRequest/draft-1")]
    [InlineData("DeviceRequest/draft-1/_history/3", "DeviceRequest/draft-1")]
    [InlineData("draft-1", "DeviceRequest/draft-1")]
    [InlineData("draft-2", "draft-2")]
    [InlineData("urn:uuid:0c1a3b7e-7a55-4f0e-9f43-52a1f2d1c001", "urn:uuid:0c1a3b7e-7a55-4f0e-9f43-52a1f2d1c001")]
    public void A_selection_is_told_by_type_and_id(string sent, string expected)
    {
        var (request, fault) = Ask.Read(Ask.With(Hook.OrderSelect, "context.selections", $"""["{sent}","{sent}"]"""), Hook.OrderSelect);

        Assert.Null(fault);
        Assert.Equal([expected], request!.Selections);
    }

    [Fact]
    public void No_selection_means_all_drafts() => Assert.Empty(Ask.Read(Ask.With(Hook.OrderSelect, "context.selections", "[]"), Hook.OrderSelect).Request!.Selections);

    [Fact]
    public void The_most_drafts_are_500()
    {
        Assert.Equal(HookRequestReader.MostDrafts, Ask.Read(Many(500)).Request!.Drafts.Length);
        var (request, fault) = Ask.Read(Many(501));

        Assert.Null(request);
        Assert.Equal((Codes.HookTooManyDrafts, "context.draftOrders.entry", 400), (fault!.Code, fault.Where, fault.Status));
    }

    [Theory]
    [InlineData("{\"fullUrl\":\"urn:uuid:1\"}")]
    [InlineData("{\"resource\":null}")]
    public void Entries_without_a_resource_do_not_count(string entry)
    {
        var entries = string.Concat(Enumerable.Repeat(entry + ",", 2));

        Assert.Equal(HookRequestReader.MostDrafts, Ask.Read(Many(500).Replace("\"entry\":[", "\"entry\":[" + entries, StringComparison.Ordinal)).Request?.Drafts.Length);
    }

    [Theory]
    [InlineData(2_000, 4_000)]
    [InlineData(5_000, 10_000)]
    public void The_work_grows_as_the_request_does(int few, int many)
    {
        Work(10);

        var (one, other) = (Work(few), Work(many));

        Assert.InRange(other, 0, one * 5 / 2);
    }

    [Fact]
    public void Nothing_that_a_request_holds_is_said_by_its_texts()
    {
        var request = Ask.Read(Ask.Whole(Hook.OrderSign)).Request!;

        Assert.Equal(
            "HookRequest(OrderSign) HookResource(DeviceRequest) FhirAccess",
            $"{request} {request.Drafts[0]} {request.Access}");
    }

    private static string Many(int drafts) =>
        Ask.Whole(Hook.OrderSign).ToJsonString().Replace("[{\"resource\":" + Ask.Draft + "}]", "[" + string.Join(',', Enumerable.Repeat("{\"resource\":" + Ask.Draft + "}", drafts)) + "]", StringComparison.Ordinal);

    // Rows of a prefetch, and as many members in one object.
    private static long Work(int rows)
    {
        var entries = string.Join(',', Enumerable.Range(0, rows).Select(i => $$"""{"resource":{"resourceType":"Observation","id":"o{{i}}","subject":{"reference":"Patient/p1"} } }"""));
        var members = string.Join(',', Enumerable.Range(0, rows).Select(i => $"\"m{i}\":{i}"));
        var body = Encoding.UTF8.GetBytes(Ask.Whole(Hook.PatientView).ToJsonString().Replace(
            "\"airway\":null", $$"""{{"\"airway\":"}}{"resourceType":"Bundle","entry":[{{entries}}]},"x":{ {{members}} }""", StringComparison.Ordinal));
        var before = GC.GetAllocatedBytesForCurrentThread();
        var (request, fault) = HookRequestReader.Read(body, Hook.PatientView);
        var work = GC.GetAllocatedBytesForCurrentThread() - before;
        Assert.Null(fault);
        Assert.Equal(rows, request!.Prefetch["airway"].Resources.Length);
        return work;
    }
}
