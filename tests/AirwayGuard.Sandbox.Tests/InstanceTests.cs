using System.Net;
using Xunit;

namespace AirwayGuard.Sandbox.Tests;

public sealed class InstanceTests : IDisposable
{
    private readonly World world = new();

    public void Dispose() => world.Dispose();

    // R4 http.html#create: 201 with Location, ETag and Last-Modified; the client's id is ignored.
    [Fact]
    public async Task A_created_resource_gets_the_servers_id_version_and_time()
    {
        var answer = await world.Post("Patient", Some.Patient(id: "mine"));

        Assert.Equal(HttpStatusCode.Created, answer.Status);
        Assert.False(answer.Id is null or "mine");
        Assert.Equal("1", answer.Version);
        Assert.Equal("2026-03-01T08:00:00.000Z", (string?)answer.Json["meta"]!["lastUpdated"]);
        Assert.Equal($"{World.Base}/Patient/{answer.Id}/_history/1", answer.Headers["Location"]);
        Assert.Equal("W/\"1\"", answer.Headers["ETag"]);
        Assert.Equal("Sun, 01 Mar 2026 08:00:00 GMT", answer.Headers["Last-Modified"]);
        Assert.Equal("Sun, 01 Mar 2026 08:00:00 GMT", answer.Headers["Date"]);
        Assert.Equal("application/fhir+json; charset=utf-8", answer.Headers["Content-Type"]);
    }

    [Fact]
    public async Task What_the_client_sent_is_kept_to_the_digit()
    {
        const string sent = """{"resourceType":"Observation","meta":{"tag":[{"code":"demo"}],"versionId":"77"},"status":"final","code":{"text":"Sög + <druck>"},"valueQuantity":{"value":120.50}}""";

        var created = await world.Post("Observation", sent);
        var read = await world.Get($"Observation/{created.Id}");

        Assert.Contains("120.50", read.Text, StringComparison.Ordinal);
        Assert.Contains("Sög + <druck>", read.Text, StringComparison.Ordinal);
        Assert.Contains("\"tag\":[{\"code\":\"demo\"}]", read.Text, StringComparison.Ordinal);
        Assert.Equal("1", read.Version);
    }

    // R4 http.html#upsert
    [Fact]
    public async Task An_update_under_a_new_id_creates_and_then_counts_versions()
    {
        var first = await world.Put("Patient/p1", Some.Patient("p1"));
        world.Clock.Advance(TimeSpan.FromSeconds(5));
        var second = await world.Put("Patient/p1", Some.Patient("p1", family: "Beispiel"));

        Assert.Equal(HttpStatusCode.Created, first.Status);
        Assert.Equal(HttpStatusCode.OK, second.Status);
        Assert.Equal("2", second.Version);
        Assert.Equal("W/\"2\"", second.Headers["ETag"]);
        Assert.Equal("2026-03-01T08:00:05.000Z", (string?)second.Json["meta"]!["lastUpdated"]);
    }

    [Theory]
    [InlineData("Patient/p2")]
    [InlineData("Flag/p1")]
    public async Task An_update_whose_address_names_another_resource_is_refused(string path)
    {
        var answer = await world.Put(path, Some.Patient("p1"));

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal("invalid", answer.IssueCode);
    }

    // R4 http.html#vread
    [Fact]
    public async Task An_old_version_can_still_be_read()
    {
        await world.Put("Patient/p1", Some.Patient("p1", family: "Vorher"));
        await world.Put("Patient/p1", Some.Patient("p1", family: "Nachher"));

        var old = await world.Get("Patient/p1/_history/1");
        var none = await world.Get("Patient/p1/_history/3");

        Assert.Contains("Vorher", old.Text, StringComparison.Ordinal);
        Assert.Equal("W/\"1\"", old.Headers["ETag"]);
        Assert.Equal(HttpStatusCode.NotFound, none.Status);
    }

    // R4 http.html#delete and #read: 204, then 410; the older versions remain.
    [Fact]
    public async Task A_deleted_resource_is_gone_but_not_its_past_nor_its_id()
    {
        await world.Put("Patient/p1", Some.Patient("p1"));

        var deleted = await world.Delete("Patient/p1");
        var read = await world.Get("Patient/p1");
        var marker = await world.Get("Patient/p1/_history/2");
        var old = await world.Get("Patient/p1/_history/1");
        var again = await world.Delete("Patient/p1");
        var found = await world.Get("Patient?_id=p1");
        var revived = await world.Put("Patient/p1", Some.Patient("p1"));

        Assert.Equal(HttpStatusCode.NoContent, deleted.Status);
        Assert.Equal("W/\"2\"", deleted.Headers["ETag"]);
        Assert.Equal(HttpStatusCode.Gone, read.Status);
        Assert.Equal("deleted", read.IssueCode);
        Assert.Equal(HttpStatusCode.Gone, marker.Status);
        Assert.Equal(HttpStatusCode.OK, old.Status);
        Assert.Equal(HttpStatusCode.NoContent, again.Status);
        Assert.Equal(0, found.Total);
        Assert.Equal(HttpStatusCode.Created, revived.Status);
        Assert.Equal("3", revived.Version);
    }

    [Theory]
    [InlineData("Patient/nobody", "not-found")]
    [InlineData("Nothing/1", "not-supported")]
    [InlineData("Patient/1/2/3/4", "not-found")]
    [InlineData("Patient/$everything", "not-found")]
    public async Task An_unknown_address_is_404_with_an_outcome(string path, string code)
    {
        var answer = await world.Get(path);

        Assert.Equal(HttpStatusCode.NotFound, answer.Status);
        Assert.Equal(code, answer.IssueCode);
    }

    // RFC 9110 §15.5.6: a 405 names the methods allowed.
    [Theory]
    [InlineData("PATCH", "Patient/p1", "GET, HEAD, PUT, DELETE")]
    [InlineData("POST", "Patient/p1", "GET, HEAD, PUT, DELETE")]
    [InlineData("POST", "metadata", "GET, HEAD")]
    [InlineData("PUT", "Patient/p1/_history/1", "GET, HEAD")]
    [InlineData("PUT", "", "POST")]
    public async Task A_method_not_served_is_405_with_Allow(string method, string path, string allow)
    {
        var answer = await world.Send(new HttpMethod(method), path, Some.Patient("p1"));

        Assert.Equal(HttpStatusCode.MethodNotAllowed, answer.Status);
        Assert.Equal(allow, answer.Headers["Allow"]);
    }

    [Theory]
    [InlineData("TRACE", "Patient/p1", "GET, HEAD, PUT, DELETE")]
    [InlineData("TRACE", "", "POST")]
    [InlineData("TRACE", "metadata", "GET, HEAD")]
    [InlineData("PATCH", "Patient/p1", "GET, HEAD, PUT, DELETE")]
    [InlineData("OPTIONS", "Patient", "GET, HEAD, POST, PUT, DELETE")]
    public async Task A_method_that_no_address_serves_is_405_whatever_it_carries(string method, string path, string allow)
    {
        var answer = await world.Send(new HttpMethod(method), path, body: null);

        Assert.Equal(HttpStatusCode.MethodNotAllowed, answer.Status);
        Assert.Equal(allow, answer.Headers["Allow"]);
    }

    // R4 http.html#cread, RFC 9110 §13.1.2 and §13.1.3
    [Fact]
    public async Task An_unchanged_resource_is_answered_304()
    {
        await world.Put("Patient/p1", Some.Patient("p1"));

        var same = await world.Get("Patient/p1", ("If-None-Match", "W/\"1\""));
        var other = await world.Get("Patient/p1", ("If-None-Match", "W/\"7\""));
        var since = await world.Get("Patient/p1", ("If-Modified-Since", "Sun, 01 Mar 2026 08:00:00 GMT"));
        var before = await world.Get("Patient/p1", ("If-Modified-Since", "Sun, 01 Mar 2026 07:59:59 GMT"));

        Assert.Equal(HttpStatusCode.NotModified, same.Status);
        Assert.Empty(same.Text);
        Assert.Equal(HttpStatusCode.OK, other.Status);
        Assert.Equal(HttpStatusCode.NotModified, since.Status);
        Assert.Equal(HttpStatusCode.OK, before.Status);
    }

    // R4 http.html#ops
    [Theory]
    [InlineData("return=minimal", "")]
    [InlineData("return=representation", "Patient")]
    [InlineData("return=OperationOutcome", "OperationOutcome")]
    [InlineData("handling=strict, return=minimal", "")]
    public async Task A_write_answers_as_preferred(string prefer, string type)
    {
        var answer = await world.Post("Patient", Some.Patient(), ("Prefer", prefer));

        Assert.Equal(HttpStatusCode.Created, answer.Status);
        Assert.Equal(type, answer.Text.Length == 0 ? "" : (string?)answer.Json["resourceType"]);
        Assert.EndsWith("/_history/1", answer.Headers["Location"], StringComparison.Ordinal);
    }

    // RFC 9110 §9.3.2
    [Fact]
    public async Task Head_tells_the_headers_without_the_body()
    {
        await world.Put("Patient/p1", Some.Patient("p1"));

        var answer = await world.Send(HttpMethod.Head, "Patient/p1", body: null);

        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Equal("W/\"1\"", answer.Headers["ETag"]);
        Assert.Empty(answer.Text);
    }

    [Fact]
    public async Task Time_never_runs_backwards_and_has_whole_milliseconds()
    {
        world.Clock.Advance(TimeSpan.FromTicks(12_345));
        var first = await world.Post("Patient", Some.Patient());
        world.Clock.Advance(TimeSpan.FromMinutes(-10));
        var second = await world.Post("Patient", Some.Patient());

        Assert.Equal("2026-03-01T08:00:00.001Z", (string?)first.Json["meta"]!["lastUpdated"]);
        Assert.Equal("2026-03-01T08:00:00.001Z", (string?)second.Json["meta"]!["lastUpdated"]);
    }
}
