using System.Text.Json;
using Hl7.Fhir.Model;
using static AirwayGuard.Fhir.Reading.PlainElements;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// Reads orders as order entries write most of them: the same objects as the SDK's parse gives, at a fraction of its cost. Whatever is not plain in one, or
/// not listed here, leaves the whole to the SDK.
/// </summary>
internal static class PlainOrders
{
    /// <param name="utf8">Well-formed JSON.</param>
    /// <returns>Null where the SDK is to read it.</returns>
    public static Resource? Read(ReadOnlySpan<byte> utf8)
    {
        var json = new Utf8JsonReader(utf8);
        var isTyped = json.Read() && json.TokenType == JsonTokenType.StartObject && IsAtMember(ref json) && json.ValueTextEquals("resourceType"u8) && json.Read() && json.TokenType == JsonTokenType.String;
        if (isTyped && json.ValueTextEquals("ServiceRequest"u8))
        {
            var order = new ServiceRequest();
            return Service(ref json, order) ? order : null;
        }

        if (isTyped && json.ValueTextEquals("DeviceRequest"u8))
        {
            var order = new DeviceRequest();
            return Equipment(ref json, order) ? order : null;
        }

        return null;
    }

    private static bool Service(ref Utf8JsonReader json, ServiceRequest into)
    {
        var isPlain = true;
        while (isPlain && IsAtMember(ref json))
        {
            isPlain = json.ValueTextEquals("id"u8) ? (into.IdElement = Text<Id>(ref json, into.IdElement)) is not null
                : json.ValueTextEquals("meta"u8) ? (into.Meta = Object<Meta>(ref json, into.Meta, Meta)) is not null
                : json.ValueTextEquals("status"u8) ? (into.StatusElement = Text<Code<RequestStatus>>(ref json, into.StatusElement)!) is not null
                : json.ValueTextEquals("intent"u8) ? (into.IntentElement = Text<Code<RequestIntent>>(ref json, into.IntentElement)!) is not null
                : json.ValueTextEquals("priority"u8) ? (into.PriorityElement = Text<Code<RequestPriority>>(ref json, into.PriorityElement)) is not null
                : json.ValueTextEquals("code"u8) ? (into.Code = Object<CodeableConcept>(ref json, into.Code, Concept)) is not null
                : json.ValueTextEquals("doNotPerform"u8) ? (into.DoNotPerformElement = Truth(ref json, into.DoNotPerformElement)) is not null
                : json.ValueTextEquals("asNeededBoolean"u8) ? (into.AsNeeded = Truth(ref json, into.AsNeeded)) is not null
                : json.ValueTextEquals("asNeededCodeableConcept"u8) ? (into.AsNeeded = Object<CodeableConcept>(ref json, into.AsNeeded, Concept)) is not null
                : json.ValueTextEquals("orderDetail"u8) ? IsList(ref json, into.OrderDetail, Concept)
                : json.ValueTextEquals("occurrenceDateTime"u8) ? (into.Occurrence = Text<FhirDateTime>(ref json, into.Occurrence)) is not null
                : json.ValueTextEquals("occurrencePeriod"u8) ? (into.Occurrence = Object<Period>(ref json, into.Occurrence, Period)) is not null
                : json.ValueTextEquals("bodySite"u8) ? IsList(ref json, into.BodySite, Concept)
                : json.ValueTextEquals("category"u8) ? IsList(ref json, into.Category, Concept)
                : json.ValueTextEquals("replaces"u8) ? IsList(ref json, into.Replaces, Reference)
                : json.ValueTextEquals("patientInstruction"u8) ? (into.PatientInstructionElement = Text<FhirString>(ref json, into.PatientInstructionElement)) is not null
                : json.ValueTextEquals("subject"u8) ? (into.Subject = Object<ResourceReference>(ref json, into.Subject, Reference)!) is not null
                : json.ValueTextEquals("encounter"u8) ? (into.Encounter = Object<ResourceReference>(ref json, into.Encounter, Reference)) is not null
                : json.ValueTextEquals("requester"u8) ? (into.Requester = Object<ResourceReference>(ref json, into.Requester, Reference)) is not null
                : json.ValueTextEquals("authoredOn"u8) ? (into.AuthoredOnElement = Text<FhirDateTime>(ref json, into.AuthoredOnElement)) is not null
                : json.ValueTextEquals("basedOn"u8) ? IsList(ref json, into.BasedOn, Reference)
                : json.ValueTextEquals("reasonCode"u8) ? IsList(ref json, into.ReasonCode, Concept)
                : json.ValueTextEquals("note"u8) ? IsList(ref json, into.Note, Note)
                : false;
        }

        return isPlain && json.CurrentDepth == 0;
    }

    private static bool Equipment(ref Utf8JsonReader json, DeviceRequest into)
    {
        var isPlain = true;
        while (isPlain && IsAtMember(ref json))
        {
            isPlain = json.ValueTextEquals("id"u8) ? (into.IdElement = Text<Id>(ref json, into.IdElement)) is not null
                : json.ValueTextEquals("meta"u8) ? (into.Meta = Object<Meta>(ref json, into.Meta, Meta)) is not null
                : json.ValueTextEquals("status"u8) ? (into.StatusElement = Text<Code<RequestStatus>>(ref json, into.StatusElement)!) is not null
                : json.ValueTextEquals("intent"u8) ? (into.IntentElement = Text<Code<RequestIntent>>(ref json, into.IntentElement)!) is not null
                : json.ValueTextEquals("priority"u8) ? (into.PriorityElement = Text<Code<RequestPriority>>(ref json, into.PriorityElement)) is not null
                : json.ValueTextEquals("codeCodeableConcept"u8) ? (into.Code = Object<CodeableConcept>(ref json, into.Code, Concept)!) is not null
                : json.ValueTextEquals("parameter"u8) ? IsList(ref json, into.Parameter, Parameter)
                : json.ValueTextEquals("priorRequest"u8) ? IsList(ref json, into.PriorRequest, Reference)
                : json.ValueTextEquals("subject"u8) ? (into.Subject = Object<ResourceReference>(ref json, into.Subject, Reference)!) is not null
                : json.ValueTextEquals("encounter"u8) ? (into.Encounter = Object<ResourceReference>(ref json, into.Encounter, Reference)) is not null
                : json.ValueTextEquals("requester"u8) ? (into.Requester = Object<ResourceReference>(ref json, into.Requester, Reference)) is not null
                : json.ValueTextEquals("authoredOn"u8) ? (into.AuthoredOnElement = Text<FhirDateTime>(ref json, into.AuthoredOnElement)) is not null
                : json.ValueTextEquals("basedOn"u8) ? IsList(ref json, into.BasedOn, Reference)
                : json.ValueTextEquals("reasonCode"u8) ? IsList(ref json, into.ReasonCode, Concept)
                : json.ValueTextEquals("note"u8) ? IsList(ref json, into.Note, Note)
                : false;
        }

        return isPlain && json.CurrentDepth == 0;
    }

    private static bool Parameter(ref Utf8JsonReader json, DeviceRequest.ParameterComponent into)
    {
        var isPlain = true;
        while (isPlain && IsAtMember(ref json))
        {
            isPlain = json.ValueTextEquals("code"u8) ? (into.Code = Object<CodeableConcept>(ref json, into.Code, Concept)) is not null
                : json.ValueTextEquals("valueQuantity"u8) ? (into.Value = Object<Quantity>(ref json, into.Value, Quantity)) is not null
                : json.ValueTextEquals("valueCodeableConcept"u8) ? (into.Value = Object<CodeableConcept>(ref json, into.Value, Concept)) is not null
                : json.ValueTextEquals("valueBoolean"u8) ? (into.Value = Truth(ref json, into.Value)) is not null
                : false;
        }

        return isPlain && into.Code is not null && into.Value is not null;
    }
}
