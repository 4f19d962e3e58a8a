using System.Buffers;
using System.Text.Json;

namespace AirwayGuard.Host.DemoWard.Writing;

/// <summary>Writes FHIR JSON, byte for byte the same for the same ward.</summary>
internal static class ResourceJson
{
    public const string Base = "https://willowmere.example.org/";
    public const string AirwayCare = "https://airwayguard.example.org/fhir/CodeSystem/airway-care";
    public const string DeviceKind = "https://airwayguard.example.org/fhir/CodeSystem/device-kind";
    public const string Ucum = "http://unitsofmeasure.org";

    public static WardResource Resource(string type, string id, Action<Utf8JsonWriter> body)
    {
        var bytes = new ArrayBufferWriter<byte>(512);
        using (var json = new Utf8JsonWriter(bytes))
        {
            json.WriteStartObject();
            json.WriteString("resourceType", type);
            json.WriteString("id", id);
            body(json);
            json.WriteEndObject();
        }

        return new WardResource(type, id, bytes.WrittenMemory.ToArray());
    }

    public static void Reference(this Utf8JsonWriter json, string name, string reference)
    {
        json.WriteStartObject(name);
        json.WriteString("reference", reference);
        json.WriteEndObject();
    }

    public static void Identifier(this Utf8JsonWriter json, string system, string value)
    {
        json.WriteStartArray("identifier");
        json.WriteStartObject();
        json.WriteString("system", Base + system);
        json.WriteString("value", value);
        json.WriteEndObject();
        json.WriteEndArray();
    }

    /// <summary>A CodeableConcept of one coding and the words of it.</summary>
    public static void Concept(this Utf8JsonWriter json, string name, string system, string code, string words)
    {
        json.WriteStartObject(name);
        json.WriteStartArray("coding");
        json.WriteStartObject();
        json.WriteString("system", system);
        json.WriteString("code", code);
        json.WriteString("display", words);
        json.WriteEndObject();
        json.WriteEndArray();
        json.WriteString("text", words);
        json.WriteEndObject();
    }

    public static void Words(this Utf8JsonWriter json, string name, string words)
    {
        json.WriteStartObject(name);
        json.WriteString("text", words);
        json.WriteEndObject();
    }

    public static void Period(this Utf8JsonWriter json, string name, string start)
    {
        json.WriteStartObject(name);
        json.WriteString("start", start);
        json.WriteEndObject();
    }
}
