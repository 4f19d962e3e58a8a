using System.Net;
using System.Text.Json.Nodes;
using Xunit;

namespace AirwayGuard.Sandbox.Tests;

public sealed class TransactionTests : IDisposable
{
    private const string PatientUrn = "urn:uuid:11111111-1111-4111-8111-111111111111";
    private const string FlagUrn = "urn:uuid:22222222-2222-4222-8222-222222222222";
    private readonly World world = new();

    public void Dispose() => world.Dispose();

    // R4 http.html#trules: links between entries become the identities given, single and in lists, both ways.
    [Fact]
    public async Task References_between_entries_are_resolved()
    {
        const string provenance = $$$"""{"resourceType":"Provenance","recorded":"2026-03-01T08:00:00Z","target":[{"reference":"{{{FlagUrn}}}"},{"reference":"{{{PatientUrn}}}"}],"agent":[{"who":{"reference":"{{{PatientUrn}}}"}}]}""";
        var answer = await world.Post("", Some.Bundle("transaction",
            Some.Entry("POST", "Provenance", provenance),
            Some.Entry("POST", "Flag", Some.Flag("k1", patient: PatientUrn), FlagUrn),
            Some.Entry("PUT", "Patient/p1", Some.Patient("p1"), PatientUrn)));

        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Equal("transaction-response", (string?)answer.Json["type"]);
        var locations = answer.Entries.Select(entry => (string)entry["response"]!["location"]!).ToList();
        Assert.StartsWith($"{World.Base}/Provenance/", locations[0], StringComparison.Ordinal);
        Assert.Equal($"{World.Base}/Patient/p1/_history/1", locations[2]);
        Assert.Equal(["201 Created", "201 Created", "201 Created"], answer.Statuses);
        Assert.Equal("W/\"1\"", (string?)answer.Entries[1]["response"]!["etag"]);
        Assert.Equal("2026-03-01T08:00:00.000Z", (string?)answer.Entries[1]["response"]!["lastModified"]);
        Assert.False(answer.Entries[1].ContainsKey("resource"));

        var flag = await world.Get(locations[1]);
        var stored = await world.Get(locations[0]);
        Assert.Equal("Patient/p1", (string?)flag.Json["subject"]!["reference"]);
        Assert.Equal($"Flag/{flag.Id} Patient/p1", string.Join(' ', stored.Json["target"]!.AsArray().Select(target => (string?)target!["reference"])));
        Assert.Equal(1, (await world.Get($"Provenance?target=Flag/{flag.Id}")).Total);
    }

    [Fact]
    public async Task Conditional_references_find_what_is_stored_and_what_is_created()
    {
        await world.Put("Patient/p1", Some.Patient("p1", mrn: "1"));

        var answer = await world.Post("", Some.Bundle("transaction",
            Some.Entry("POST", "Flag", Some.Flag("k1", patient: "Patient?identifier=urn:demo:mrn|1")),
            Some.Entry("POST", "Flag", Some.Flag("k2", patient: "Patient?identifier=urn:demo:mrn|2")),
            Some.Entry("POST", "Patient", Some.Patient(mrn: "2"), ifNoneExist: "identifier=urn:demo:mrn|2")));

        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Equal(1, (await world.Get("Flag?patient=p1")).Total);
        Assert.Equal(1, (await world.Get("Flag?patient.identifier=urn:demo:mrn|2")).Total);
    }

    [Theory]
    [InlineData("missing mandatory element", 400)]
    [InlineData("stale version", 412)]
    [InlineData("conditional reference to nothing", 412)]
    [InlineData("reference to no entry", 400)]
    [InlineData("several matches", 412)]
    [InlineData("same resource twice", 400)]
    [InlineData("type and address differ", 400)]
    [InlineData("unknown method", 400)]
    [InlineData("no request", 400)]
    [InlineData("unknown read", 404)]
    [InlineData("refused subscription", 422)]
    public async Task One_refused_entry_undoes_all(string fault, int status)
    {
        await world.Put("Patient/p1", Some.Patient("p1"));
        await world.Put("Patient/p2", Some.Patient("p2"));
        await world.Post("Flag", Some.Flag("twin"));
        await world.Post("Flag", Some.Flag("twin"));
        JsonObject bad = fault switch
        {
            "missing mandatory element" => Some.Entry("POST", "Flag", """{"resourceType":"Flag","status":"active"}"""),
            "stale version" => Some.Entry("PUT", "Patient/p1", Some.Patient("p1"), ifMatch: "W/\"9\""),
            "conditional reference to nothing" => Some.Entry("POST", "Flag", Some.Flag("k9", patient: "Patient?identifier=urn:demo:mrn|none")),
            "reference to no entry" => Some.Entry("POST", "Flag", Some.Flag("k9", patient: PatientUrn)),
            "several matches" => Some.Entry("POST", "Flag", Some.Flag("twin"), ifNoneExist: "identifier=urn:demo:key|twin"),
            "same resource twice" => Some.Entry("PUT", "Patient/new", Some.Patient("new")),
            "type and address differ" => Some.Entry("POST", "Patient", Some.Flag("k9")),
            "unknown method" => Some.Entry("BREW", "Patient", Some.Patient()),
            "no request" => new JsonObject { ["resource"] = JsonNode.Parse(Some.Patient()) },
            "unknown read" => Some.Entry("GET", "Patient/nobody"),
            _ => Some.Entry("POST", "Subscription", Some.Subscription("Flag?", endpoint: "http://192.0.2.1/")),
        };
        var before = world.Repository.History().Count;

        var answer = await world.Post("", Some.Bundle("transaction",
            Some.Entry("PUT", "Patient/new", Some.Patient("new")),
            Some.Entry("POST", "Flag", Some.Flag("k1")),
            Some.Entry("DELETE", "Patient/p2"),
            bad));

        Assert.Equal(status, (int)answer.Status);
        Assert.StartsWith("Bundle.entry[", (string?)answer.Json["issue"]![0]!["expression"]![0], StringComparison.Ordinal);
        Assert.Equal(before, world.Repository.History().Count);
        Assert.Equal(HttpStatusCode.OK, (await world.Get("Patient/p2")).Status);
        Assert.Equal(0, (await world.Get("Flag?identifier=urn:demo:key|k1")).Total);
        Assert.Equal(HttpStatusCode.Created, (await world.Put("Patient/new", Some.Patient("new"))).Status);
    }

    [Fact]
    public async Task Conditional_entries_act_as_they_do_alone()
    {
        await world.Put("Patient/p1", Some.Patient("p1", mrn: "1"));
        var bundle = Some.Bundle("transaction",
            Some.Entry("POST", "Flag", Some.Flag("k1", patient: "Patient/p1"), ifNoneExist: "identifier=urn:demo:key|k1"),
            Some.Entry("POST", "Flag", Some.Flag("k1", patient: "Patient/p1"), ifNoneExist: "identifier=urn:demo:key|k1"),
            Some.Entry("PUT", "Patient?identifier=urn:demo:mrn|1", Some.Patient(mrn: "1", family: "Neu")),
            Some.Entry("PUT", "Patient?identifier=urn:demo:mrn|2", Some.Patient(mrn: "2")));

        var first = await world.Post("", bundle);
        var second = await world.Post("", bundle);

        Assert.Equal(["201 Created", "200 OK", "200 OK", "201 Created"], first.Statuses);
        Assert.Equal(["200 OK", "200 OK", "200 OK", "200 OK"], second.Statuses);
        Assert.Equal((string?)first.Entries[0]["response"]!["location"], (string?)first.Entries[1]["response"]!["location"]);
        Assert.Equal(1, (await world.Get("Flag")).Total);
        Assert.Equal("3", (await world.Get("Patient/p1")).Version);
    }

    [Fact]
    public async Task A_current_ifMatch_lets_the_write_through()
    {
        await world.Put("Patient/p1", Some.Patient("p1"));

        var answer = await world.Post("", Some.Bundle("transaction", Some.Entry("PUT", "Patient/p1", Some.Patient("p1"), ifMatch: "W/\"1\"")));

        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Equal("W/\"2\"", (string?)answer.Entries[0]["response"]!["etag"]);
    }

    [Fact]
    public async Task Reads_come_last_and_answers_keep_the_order_of_the_entries()
    {
        await world.Put("Patient/old", Some.Patient("old"));

        var answer = await world.Post("", Some.Bundle("transaction",
            Some.Entry("GET", "Patient?_sort=_id"),
            Some.Entry("PUT", "Patient/new", Some.Patient("new")),
            Some.Entry("GET", "Patient/new"),
            Some.Entry("DELETE", "Patient/old")), ("Prefer", "return=representation"));

        Assert.Equal(["200 OK", "201 Created", "200 OK", "204 No Content"], answer.Statuses);
        Assert.Equal(1, (int)answer.Entries[0]["resource"]!["total"]!);
        Assert.Equal("new", (string?)answer.Entries[1]["resource"]!["id"]);
        Assert.Equal("new", (string?)answer.Entries[2]["resource"]!["id"]);
    }

    // R4 http.html#batch: each entry for itself.
    [Fact]
    public async Task A_batch_answers_each_entry_for_itself()
    {
        var answer = await world.Post("", Some.Bundle("batch",
            Some.Entry("PUT", "Patient/p1", Some.Patient("p1")),
            Some.Entry("POST", "Flag", """{"resourceType":"Flag","status":"active"}"""),
            new JsonObject { ["fullUrl"] = PatientUrn },
            Some.Entry("GET", "Patient/p1"),
            Some.Entry("GET", "Patient/nobody"),
            Some.Entry("POST", "Flag", Some.Flag("k1"), ifNoneExist: "identifier=urn:demo:key|k1"),
            Some.Entry("POST", "Flag", Some.Flag("k1"), ifNoneExist: "identifier=urn:demo:key|k1"),
            Some.Entry("DELETE", "Patient/p1")));

        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Equal("201 400 400 200 404 201 200 204", string.Join(' ', answer.Statuses.Select(status => status[..3])));
        Assert.Equal("OperationOutcome", (string?)answer.Entries[1]["response"]!["outcome"]!["resourceType"]);
        Assert.Equal("p1", (string?)answer.Entries[3]["resource"]!["id"]);
        Assert.Equal(HttpStatusCode.Gone, (await world.Get("Patient/p1")).Status);
    }

    [Theory]
    [InlineData("transaction")]
    [InlineData("batch")]
    public async Task An_empty_bundle_is_answered_with_an_empty_one(string type)
    {
        var answer = await world.Post("", $$"""{"resourceType":"Bundle","type":"{{type}}"}""");

        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Equal($"{type}-response", (string?)answer.Json["type"]);
        Assert.False(answer.Json.ContainsKey("entry"));
    }

    [Theory]
    [InlineData("""{"resourceType":"Bundle","type":"collection"}""")]
    [InlineData("""{"resourceType":"Patient"}""")]
    [InlineData("""{"resourceType":"Bundle"}""")]
    public async Task Only_a_transaction_or_batch_may_be_posted_to_the_base(string body)
    {
        Assert.Equal(HttpStatusCode.BadRequest, (await world.Post("", body)).Status);
    }

    [Fact]
    public async Task A_ward_of_three_thousand_loads_in_transactions_of_two_hundred()
    {
        for (var i = 0; i < 15; i++)
        {
            var entries = Enumerable.Range(i * 200, 200).Select(n => Some.Entry("PUT", $"Observation/o{n}", Some.Observation(patient: $"Patient/p{n % 30}", id: $"o{n}")));
            Assert.Equal(HttpStatusCode.OK, (await world.Post("", Some.Bundle("transaction", [.. entries]))).Status);
        }

        Assert.Equal(3000, (await world.Get("Observation?_summary=count")).Total);
        Assert.Equal(100, (await world.Get("Observation?patient=p7&code=suction-pressure&_summary=count")).Total);
    }
}
