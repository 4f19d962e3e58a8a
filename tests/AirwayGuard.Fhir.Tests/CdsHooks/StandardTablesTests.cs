using System.Buffers;
using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Fhir.CdsHooks;

namespace AirwayGuard.Fhir.Tests.CdsHooks;

/// <summary>The tables of CDS Hooks 2.0 as data: what each requires of a client is asked for, and what each requires of a service is written.</summary>
public sealed class StandardTablesTests
{
    private const string OrderSign = "Hook order-sign, Context", OrderSelect = "Hook order-select, Context", PatientView = "Hook patient-view, Context";

    /// <summary>Section, hook, path, whether it is required, and a value of the wrong kind. Where we ask for less than the table, the last says why.</summary>
    public static TheoryData<string, Hook, string, bool, string, string?> Sent => new()
    {
        { "Calling a CDS Service, HTTP Request", Hook.PatientView, "hook", true, "5", null },
        { "Calling a CDS Service, HTTP Request", Hook.PatientView, "hookInstance", true, "5", null },
        { "Calling a CDS Service, HTTP Request", Hook.PatientView, "context", true, "5", null },
        { "Calling a CDS Service, HTTP Request", Hook.PatientView, "fhirServer", true, "5", null }, // beside fhirAuthorization
        { "Calling a CDS Service, HTTP Request", Hook.PatientView, "fhirAuthorization", false, "5", null },
        { "Calling a CDS Service, HTTP Request", Hook.PatientView, "prefetch", false, "5", null },
        { "Passing the Access Token to the CDS Service", Hook.PatientView, "fhirAuthorization.access_token", true, "5", null },
        { "Passing the Access Token to the CDS Service", Hook.PatientView, "fhirAuthorization.token_type", true, "5", null },
        { "Passing the Access Token to the CDS Service", Hook.PatientView, "fhirAuthorization.expires_in", true, "\"x\"", "a token past its time is refused where it is used" },
        { "Passing the Access Token to the CDS Service", Hook.PatientView, "fhirAuthorization.scope", true, "5", "what it may read is seen where it is used" },
        { "Passing the Access Token to the CDS Service", Hook.PatientView, "fhirAuthorization.subject", true, "5", "it names us" },
        { OrderSign, Hook.OrderSign, "context.userId", true, "5", "who asks changes no answer" },
        { OrderSign, Hook.OrderSign, "context.patientId", true, "5", null },
        { OrderSign, Hook.OrderSign, "context.encounterId", false, "5", null },
        { OrderSign, Hook.OrderSign, "context.draftOrders", true, "5", null },
        { OrderSelect, Hook.OrderSelect, "context.userId", true, "5", "who asks changes no answer" },
        { OrderSelect, Hook.OrderSelect, "context.patientId", true, "5", null },
        { OrderSelect, Hook.OrderSelect, "context.encounterId", false, "5", null },
        { OrderSelect, Hook.OrderSelect, "context.selections", true, "5", null },
        { OrderSelect, Hook.OrderSelect, "context.draftOrders", true, "5", null },
        { PatientView, Hook.PatientView, "context.userId", true, "5", "who asks changes no answer" },
        { PatientView, Hook.PatientView, "context.patientId", true, "5", null },
        { PatientView, Hook.PatientView, "context.encounterId", false, "5", null },
    };

    /// <summary>Section, path in an entry, whether it is required, and a value of the wrong kind.</summary>
    public static TheoryData<string, string, bool, string, string?> Told => new()
    {
        { "Feedback", "card", true, "5", null },
        { "Feedback", "outcome", true, "5", null },
        { "Feedback", "outcomeTimestamp", true, "5", null },
        { "Feedback", "acceptedSuggestions", true, "5", "that a card was accepted is worth keeping without which of its suggestions" },
        { "Feedback", "overrideReason", false, "5", null },
        { "Suggestion accepted, AcceptedSuggestion", "acceptedSuggestions.0.id", true, "5", null },
        { "OverrideReason", "overrideReason.reason", false, "5", null },
        { "OverrideReason", "overrideReason.userComment", false, "5", null },
        { "Coding", "overrideReason.reason.code", true, "5", "a reason in words alone is a reason" },
        { "Coding", "overrideReason.reason.system", false, "5", null },
        { "Coding", "overrideReason.reason.display", false, "5", null },
    };

    /// <summary>Section, the path of an object in what is written, and its members; those in brackets are optional.</summary>
    public static TheoryData<string, string, string> Written => new()
    {
        { "CDS Service Response, HTTP Response", "", "cards: array" },
        { "Card Attributes", "cards.0", "uuid: text, summary: text, [detail: text], indicator: text, source: object, [suggestions: array], [selectionBehavior: text], [overrideReasons: array]" },
        { "Source", "cards.0.source", "label: text, [url: text], [topic: object]" },
        { "Coding", "cards.0.source.topic", "code: text, system: text, [display: text]" },
        { "Suggestion", "cards.0.suggestions.0", "label: text, uuid: text, actions: array" },
        { "Action", "cards.0.suggestions.0.actions.0", "type: text, description: text, resource: object" },
        { "Reasons for rejecting a card", "cards.0.overrideReasons.0", "code: text, system: text, display: text" },
        { "Discovery, Response", "services", "services: array" },
        { "Discovery, Response", "services.0", "hook: text, title: text, description: text, id: text, [prefetch: object], [usageRequirements: text]" },
    };

    [Theory]
    [MemberData(nameof(Sent))]
    public void A_request_is_asked_for_what_the_table_requires(string section, Hook hook, string path, bool isRequired, string wrong, string? whyNot)
    {
        var isAsked = isRequired && whyNot is null;

        Assert.True(isAsked == Ask.Read(Ask.With(hook, path, null), hook).Fault is not null, $"CDS Hooks 2.0, {section}: {path} missing");
        Assert.True(whyNot is null == Ask.Read(Ask.With(hook, path, wrong), hook).Fault is not null, $"CDS Hooks 2.0, {section}: {path} of another kind");
        Assert.Null(Ask.Read(Ask.Whole(hook), hook).Fault);
    }

    [Theory]
    [MemberData(nameof(Told))]
    public void Feedback_is_asked_for_what_the_table_requires(string section, string path, bool isRequired, string wrong, string? whyNot)
    {
        Assert.True((isRequired && whyNot is null) == IsFaulty(path, null), $"CDS Hooks 2.0, {section}: {path} missing");
        Assert.True(IsFaulty(path, wrong), $"CDS Hooks 2.0, {section}: {path} of another kind");
    }

    [Theory]
    [MemberData(nameof(Written))]
    public void What_is_written_has_the_members_of_the_table_and_no_others(string section, string path, string members)
    {
        var (full, bare) = (At(path, isFull: true), At(path, isFull: false));
        var listed = members.Split(", ").ToDictionary(member => member.Trim('[', ']').Split(':')[0], member => (Kind: member.Trim('[', ']').Split(": ")[1], IsOptional: member[0] == '['), StringComparer.Ordinal);

        Assert.True(full!.Select(member => member.Key).Order(StringComparer.Ordinal).SequenceEqual(listed.Keys.Order(StringComparer.Ordinal), StringComparer.Ordinal), $"CDS Hooks 2.0, {section}: {full!.ToJsonString()}");
        Assert.All(full!, member => Assert.Equal(listed[member.Key].Kind, Kind(member.Value)));
        if (bare is not null)
        {
            Assert.Equal(listed.Where(member => !member.Value.IsOptional).Select(member => member.Key).Order(StringComparer.Ordinal), bare.Select(member => member.Key).Order(StringComparer.Ordinal));
        }
    }

    [Fact]
    public void A_selection_behavior_stands_exactly_where_there_are_suggestions()
    {
        Assert.Equal("at-most-one", At("cards.0", isFull: true)!["selectionBehavior"]!.GetValue<string>());
        Assert.Null(At("cards.0", isFull: false)!["selectionBehavior"]);
        Assert.Null(At("cards.0", isFull: false)!["suggestions"]);
    }

    // Null where the bare one has no such object.
    private static JsonObject? At(string path, bool isFull)
    {
        var output = new ArrayBufferWriter<byte>();
        if (path.StartsWith("services", StringComparison.Ordinal))
        {
            DiscoveryJson.Write([new HookService("a", Hook.OrderSign, "b", "c", isFull ? [("k", "Patient/{{context.patientId}}")] : [], isFull ? "d" : null)], output);
            path = path == "services" ? "" : path;
        }
        else
        {
            var coding = new CardCoding("urn:s", "c", isFull || path.EndsWith("overrideReasons.0", StringComparison.Ordinal) ? "d" : "");
            CardsJson.Write(
                [
                    new Card(
                        Guid.Parse("4f8f2a0e-58a7-4c0b-9a65-0d2b6a1c0001"), "s", CardIndicator.Info, isFull ? "d" : "",
                        new CardSource("l", isFull ? "https://x.test" : null, isFull || path.EndsWith("topic", StringComparison.Ordinal) ? coding : null),
                        isFull ? [new CardSuggestion(Guid.Parse("4f8f2a0e-58a7-4c0b-9a65-0d2b6a1c0002"), "l", "d", Encoding.UTF8.GetBytes(Ask.Draft))] : [], isFull ? [coding] : []),
                ], output);
        }

        JsonNode? at = JsonNode.Parse(output.WrittenSpan);
        foreach (var step in path.Split('.', StringSplitOptions.RemoveEmptyEntries))
        {
            at = int.TryParse(step, System.Globalization.CultureInfo.InvariantCulture, out var index) ? at?[index] : at?[step];
        }

        return at?.AsObject();
    }

    private static bool IsFaulty(string path, string? json)
    {
        var body = JsonNode.Parse("""
            {"feedback":[{"card":"4f8f2a0e-58a7-4c0b-9a65-0d2b6a1c0001","outcome":"accepted","outcomeTimestamp":"2026-03-01T09:55:00Z","acceptedSuggestions":[{"id":"4f8f2a0e-58a7-4c0b-9a65-0d2b6a1c0002"}],
             "overrideReason":{"reason":{"system":"urn:s","code":"c","display":"d"},"userComment":"e"}}]}
            """)!;
        Assert.Empty(FeedbackReader.Read(Ask.Bytes(body)).Faults);
        return FeedbackReader.Read(Ask.Bytes(Ask.With(body, $"feedback.0.{path}", json))).Faults.Length == 1;
    }

    private static string Kind(JsonNode? value) => value switch
    {
        JsonObject { Count: > 0 } => "object",
        JsonArray { Count: > 0 } => "array",
        JsonValue text when text.TryGetValue<string>(out var filled) && filled.Length > 0 => "text",
        _ => "null, empty or of another kind",
    };
}
