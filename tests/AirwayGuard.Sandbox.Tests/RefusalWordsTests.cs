using System.Net;
using Xunit;

namespace AirwayGuard.Sandbox.Tests;

/// <summary>What a refusal says: a kind that does not change, the place, what was wrong, and never a value.</summary>
public sealed class RefusalWordsTests : IDisposable
{
    private readonly World world = new(options => options.WordsOf = static fault => new SandboxWords("X-" + fault, "Title", "Advice."));

    public void Dispose() => world.Dispose();

    [Theory]
    [InlineData("""'effectiveDateTime':'2026-03-01T09:00:00'""", SandboxFault.TimeUnreadable, "Observation.effective", "A time of day has no zone offset.")]
    [InlineData("""'issued':'2026-03-01T09:00:00.5'""", SandboxFault.TimeUnreadable, "Observation.issued", "A time of day has no zone offset.")]
    [InlineData("""'effectiveDateTime':'2026-13-01'""", SandboxFault.TimeUnreadable, "Observation.effective", "no such day or time")]
    [InlineData("""'effectiveDateTime':'2026-13-01T09:00:00Z'""", SandboxFault.TimeUnreadable, "Observation.effective", "no such day or time")]
    [InlineData("""'effectivePeriod':{'start':'2026-02-30'}""", SandboxFault.TimeUnreadable, "Observation.effective.start", "no such day or time")]
    [InlineData("""'effectiveInstant':'2026-03-01'""", SandboxFault.TimeUnreadable, "Observation.effective", "An instant is not")]
    [InlineData("""'valueTime':'25:00:00'""", SandboxFault.TimeUnreadable, "Observation.value", "no such time")]
    [InlineData("""'valueQuantity':{}""", SandboxFault.ElementEmpty, "Observation.value", "holds nothing")]
    [InlineData("""'category':[]""", SandboxFault.ElementEmpty, "Observation.category[0]", "holds nothing")]
    [InlineData("""'valueString':null""", SandboxFault.ElementEmpty, "Observation.value", "holds nothing")]
    [InlineData("""'category':{'text':'x'}""", SandboxFault.ElementShape, "Observation.category[0]", "where a list belongs")]
    [InlineData("""'subject':'Patient/1'""", SandboxFault.ElementShape, "Observation.subject", "where an object belongs")]
    [InlineData("""'issued':{'x':1}""", SandboxFault.ElementShape, "Observation.issued", "where a plain value belongs")]
    [InlineData("""'category':[[1]]""", SandboxFault.ElementShape, "Observation.category[0]", "list stands in a list")]
    [InlineData("""'value':1""", SandboxFault.ElementShape, "Observation.value", "its type in its name")]
    [InlineData("""'valueString':'x','valueBoolean':true""", SandboxFault.ElementCount, "Observation", "given twice")]
    [InlineData("""'valueQuantity':{'value':'12'}""", SandboxFault.ValueUnreadable, "Observation.value.value", "not of its element's type")]
    [InlineData("""'valueInteger':99999999999""", SandboxFault.ValueUnreadable, "Observation.value", "out of the type's range")]
    [InlineData("""'id':'a b'""", SandboxFault.ValueUnreadable, "Observation.id", "not written as")]
    [InlineData("""'valueQuantity':{'value':1,'comparator':'~'}""", SandboxFault.CodeUnknown, "Observation.value.comparator", "value set")]
    [InlineData("""'component':[{'valueString':'x'}]""", SandboxFault.ElementMissing, "Observation.component[0].code", "mandatory")]
    [InlineData("""'nope':1""", SandboxFault.ElementUnknown, "Observation.nope", "not known here")]
    [InlineData("""'contained':[{'resourceType':'Nope','id':'n'}]""", SandboxFault.WrongType, "Observation.contained[0]", "resourceType of R4")]
    [InlineData("""'text':{'status':'generated','div':'<p>'}""", SandboxFault.ValueUnreadable, "Observation.text.div", "XHTML")]
    public async Task What_the_definition_does_not_allow_is_told_in_our_words(string member, SandboxFault fault, string path, string words)
    {
        var body = $$"""{"resourceType":"Observation","status":"final","code":{"text":"x"},{{member.Replace('\'', '"')}}}""";

        var answer = await world.Post("Observation", body);

        var issue = answer.Json["issue"]![0]!;
        var text = (string)issue["diagnostics"]!;
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.StartsWith($"X-{fault}  {path}: ", text, StringComparison.Ordinal);
        Assert.Contains(words, text, StringComparison.Ordinal);
        Assert.Contains(" Advice. (FHIR library: ", text, StringComparison.Ordinal);
        Assert.Equal(path, (string?)issue["expression"]![0]);
        Assert.Equal($"X-{fault} Title", (string?)issue["details"]!["text"]);
    }

    [Theory]
    [InlineData("", SandboxFault.NotJson)]
    [InlineData("{", SandboxFault.NotJson)]
    [InlineData("[]", SandboxFault.NotJson)]
    [InlineData("""{"resourceType":"Nope"}""", SandboxFault.WrongType)]
    [InlineData("""{"active":true}""", SandboxFault.WrongType)]
    [InlineData("""{"resourceType":"Flag"}""", SandboxFault.WrongType)]
    public async Task A_body_that_is_no_such_resource_is_told_without_the_library(string body, SandboxFault fault)
    {
        var text = await Said(HttpMethod.Post, "Patient", body.Replace("\"Flag\"", "\"Flag\",\"status\":\"active\",\"code\":{\"text\":\"x\"},\"subject\":{\"reference\":\"Patient/1\"}", StringComparison.Ordinal));

        Assert.StartsWith($"X-{fault}  ", text, StringComparison.Ordinal);
        Assert.DoesNotContain("FHIR library", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("GET", "Nope", SandboxFault.NotThere)]
    [InlineData("GET", "Patient/none", SandboxFault.NotThere)]
    [InlineData("GET", "Patient/a/b/c/d", SandboxFault.NotThere)]
    [InlineData("PATCH", "Patient/p1", SandboxFault.MethodNotServed)]
    [InlineData("GET", "Patient?nope:exact=1&_count=x", SandboxFault.ParameterUnreadable)]
    [InlineData("GET", "Observation?date=soon", SandboxFault.ParameterUnreadable)]
    [InlineData("GET", "Patient?_format=xml", SandboxFault.FormatNotServed)]
    public async Task A_refused_request_has_its_kind(string method, string path, SandboxFault fault) =>
        Assert.StartsWith($"X-{fault}  ", await Said(new HttpMethod(method), path, body: null), StringComparison.Ordinal);

    [Fact]
    public async Task An_entry_of_a_bundle_keeps_the_kind_and_is_placed()
    {
        var wrong = Some.Observation(when: "2026-03-01T09:00:00");

        var transaction = await world.Post("", Some.Bundle("transaction", Some.Entry("POST", "Observation", wrong)));
        var batch = await world.Post("", Some.Bundle("batch", Some.Entry("POST", "Observation", wrong)));

        Assert.StartsWith("X-TimeUnreadable  Bundle.entry[0].resource.Observation.effective: ", (string?)transaction.Json["issue"]![0]!["diagnostics"], StringComparison.Ordinal);
        Assert.Contains("FHIR library: PVAL124", transaction.Text, StringComparison.Ordinal);
        Assert.Contains("X-TimeUnreadable  Observation.effective: ", batch.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_subscription_that_cannot_be_served_has_its_kind() =>
        Assert.StartsWith("X-SubscriptionUnservable  Subscription.channel.endpoint: ", await Said(HttpMethod.Post, "Subscription", Some.Subscription("Flag?", "http://evil.example/", "application/fhir+json", header: null)), StringComparison.Ordinal);

    [Fact]
    public async Task Without_words_the_answer_says_what_was_wrong_all_the_same()
    {
        using var bare = new World();

        var answer = await bare.Post("Observation", Some.Observation(when: "2026-03-01T09:00:00"));

        Assert.Equal("Observation.effective: A time of day has no zone offset. (FHIR library: PVAL124)", (string?)answer.Json["issue"]![0]!["diagnostics"]);
        Assert.Null(answer.Json["issue"]![0]!["details"]);
    }

    [Theory]
    [InlineData("2026-03-01T09:00:00 geheimnis")]
    [InlineData("geheimnis' is not a correct literal for a dateTime. At geheimnis")]
    [InlineData("T:geheimnis")]
    public async Task No_value_is_repeated(string value)
    {
        var answer = await world.Post("Observation", Some.Observation(when: value));

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.DoesNotContain("geheimnis", answer.Text, StringComparison.Ordinal);
    }

    private async Task<string> Said(HttpMethod method, string path, string? body) => (string)(await world.Send(method, path, body)).Json["issue"]![0]!["diagnostics"]!;
}
