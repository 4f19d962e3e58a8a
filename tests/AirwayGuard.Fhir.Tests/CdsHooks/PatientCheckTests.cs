using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Fhir.CdsHooks;

namespace AirwayGuard.Fhir.Tests.CdsHooks;

/// <summary>Nothing is judged of a request that mixes two patients up.</summary>
public sealed class PatientCheckTests
{
    [Theory]
    [InlineData("DeviceRequest", "subject")]
    [InlineData("ServiceRequest", "subject")]
    [InlineData("MedicationRequest", "subject")]
    [InlineData("NutritionOrder", "patient")]
    public void A_draft_of_another_patient_is_told(string type, string member)
    {
        var request = Drafted($$"""{"resourceType":"{{type}}","id":"x","{{member}}":{"display":"A","reference":"Patient/p2"} }""");

        Assert.Equal(
            (Codes.HookOtherPatient, $"context.draftOrders.entry[0].resource.{member}.reference", 400),
            Check(request) is { } fault ? (fault.Code, fault.Where, fault.Status) : default);
    }

    [Theory]
    [InlineData("Device", "patient")]
    [InlineData("DeviceUseStatement", "subject")]
    [InlineData("Encounter", "subject")]
    [InlineData("Condition", "subject")]
    [InlineData("Procedure", "subject")]
    [InlineData("Observation", "subject")]
    [InlineData("ServiceRequest", "subject")]
    [InlineData("DeviceRequest", "subject")]
    public void A_row_of_another_patient_is_told(string type, string member)
    {
        var request = Looked($$"""{"resourceType":"Bundle","entry":[{"resource":{"resourceType":"{{type}}","{{member}}":{"reference":"Patient/p2"} } }]}""");

        Assert.Equal($"prefetch.airway.entry[0].resource.{member}.reference", Check(request)?.Where);
    }

    [Fact]
    public void Another_Patient_is_told() => Assert.Equal("prefetch.airway.id", Check(Looked("""{"resourceType":"Patient","id":"p2"}"""))?.Where);

    [Theory]
    [InlineData("Patient/p2")]
    [InlineData("Patient/p10")]
    [InlineData("Patient/P1")]
    [InlineData("Patient/p_2")]
    [InlineData("Patient/p2/_history/1")]
    [InlineData("https://ehr.example.org/fhir/Patient/p2")]
    [InlineData("https://other.example.org/r4/Patient/p2/_history/3")]
    public void These_name_another_patient(string reference) => Assert.NotNull(Check(Drafted(Referring(reference))));

    [Theory]
    [InlineData("Patient/p1")]
    [InlineData("Patient/p1/_history/2")]
    [InlineData("https://ehr.example.org/fhir/Patient/p1")]
    [InlineData("https://other.example.org/r4/Patient/p1")]
    [InlineData("urn:uuid:0c1a3b7e-7a55-4f0e-9f43-52a1f2d1c001")]
    [InlineData("#p2")]
    [InlineData("Patient?identifier=a|2")]
    [InlineData("Location/l1")]
    [InlineData("Group/g1")]
    [InlineData("p2")]
    [InlineData("Patient/\\ud800")] // half a character, found by the changed inputs
    [InlineData("")]
    public void These_name_the_same_patient_or_none_that_can_be_told(string reference) => Assert.Null(Check(Drafted(Referring(reference))));

    [Theory]
    [InlineData("""{"resourceType":"Observation","subject":{"reference":"Device/d1"}}""")]
    [InlineData("""{"resourceType":"Observation","subject":"Patient/p2"}""")]
    [InlineData("""{"resourceType":"Observation","subject":{"reference":["Patient/p2"]}}""")]
    [InlineData("""{"resourceType":"Observation","subject":null}""")]
    [InlineData("""{"resourceType":"Observation","subject":{"reference":"Patient/p1","display":"\ud800"}}""")]
    [InlineData("""{"resourceType":"Observation","component":[{"subject":{"reference":"Patient/p2"}}]}""")]
    [InlineData("""{"resourceType":"Patient"}""")]
    [InlineData("""{"resourceType":"Coverage","patient":{"reference":"Patient/p2"}}""")]
    public void What_is_not_read_or_says_nothing_is_passed_over(string row) => Assert.Null(Check(Looked(row)));

    [Fact]
    public void Escapes_do_not_hide_a_patient() => Assert.NotNull(Check(Drafted("""{"resourceType":"DeviceRequest","s\u0075bject":{"r\u0065ference":"Patient\/p\u0032"}}""")));

    [Fact]
    public void A_patient_view_may_be_of_the_patient_named_with_the_type() =>
        Assert.Null(Check(Ask.Read(Ask.With(Hook.OrderSign, "context.patientId", "\"Patient/p1\"")).Request!));

    [Fact]
    public void The_fault_names_no_patient()
    {
        var fault = Check(Drafted(Referring("Patient/zq7Mark")));

        Assert.DoesNotContain("zq7Mark", fault!.ToString(), StringComparison.Ordinal);
    }

    private static string Referring(string reference) => $$"""{"resourceType":"ServiceRequest","subject":{"reference":"{{reference}}"} }""";

    // As texts: a tree would read the escapes.
    private static HookRequest Drafted(string draft) =>
        Ask.Read(Ask.Whole(Hook.OrderSign).ToJsonString().Replace(Ask.Draft, draft, StringComparison.Ordinal)).Request!;

    private static HookRequest Looked(string json) =>
        Ask.Read(Ask.Whole(Hook.PatientView).ToJsonString().Replace("\"airway\":null", "\"airway\":" + json, StringComparison.Ordinal), Hook.PatientView).Request!;

    // Wherever an address lies: here it is looked at for the patient's id alone.
    private static HookFault? Check(HookRequest request) => PatientCheck.Of(request, static _ => true);
}
