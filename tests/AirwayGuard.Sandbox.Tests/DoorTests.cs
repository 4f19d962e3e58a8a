using System.Net;
using System.Text;
using Xunit;

namespace AirwayGuard.Sandbox.Tests;

public sealed class DoorTests : IDisposable
{
    private readonly World world = new(options => (options.MaxBodyBytes, options.MaxBundleBytes, options.MaxEntryBytes) = (8 * 1024, 32 * 1024, 12 * 1024));

    public void Dispose() => world.Dispose();

    // RFC 9110 §15.5.16
    [Theory]
    [InlineData("application/fhir+json", HttpStatusCode.Created)]
    [InlineData("application/json", HttpStatusCode.Created)]
    [InlineData("application/fhir+json; charset=UTF-8", HttpStatusCode.Created)]
    [InlineData("application/fhir+json; fhirVersion=4.0", HttpStatusCode.Created)]
    [InlineData("application/fhir+json; fhirVersion=5.0", HttpStatusCode.UnsupportedMediaType)]
    [InlineData("application/json; charset=latin1", HttpStatusCode.UnsupportedMediaType)]
    [InlineData("application/fhir+xml", HttpStatusCode.UnsupportedMediaType)]
    [InlineData("text/plain", HttpStatusCode.UnsupportedMediaType)]
    [InlineData("application/x-www-form-urlencoded", HttpStatusCode.UnsupportedMediaType)]
    [InlineData("", HttpStatusCode.UnsupportedMediaType)]
    public async Task Writes_need_a_json_content_type(string type, HttpStatusCode expected)
    {
        var answer = await world.Post("Patient", Some.Patient(), ("Content-Type", type));

        Assert.Equal(expected, answer.Status);
        Assert.Equal(expected == HttpStatusCode.Created ? 1 : 0, (await world.Get("Patient")).Total);
    }

    [Fact]
    public async Task Compressed_bodies_are_not_taken()
    {
        Assert.Equal(HttpStatusCode.UnsupportedMediaType, (await world.Post("Patient", Some.Patient(), ("Content-Encoding", "gzip"))).Status);
    }

    [Theory]
    [InlineData("http://localhost", HttpStatusCode.Created)]
    [InlineData("http://evil.example", HttpStatusCode.Forbidden)]
    [InlineData("http://localhost:8080", HttpStatusCode.Forbidden)]
    [InlineData("https://localhost", HttpStatusCode.Forbidden)]
    [InlineData("null", HttpStatusCode.Forbidden)]
    public async Task Pages_of_another_origin_cannot_write(string origin, HttpStatusCode expected)
    {
        Assert.Equal(expected, (await world.Post("Patient", Some.Patient(), ("Origin", origin))).Status);
    }

    // RFC 9110 §7.4
    [Theory]
    [InlineData("localhost", HttpStatusCode.OK)]
    [InlineData("localhost:5000", HttpStatusCode.OK)]
    [InlineData("127.0.0.1:5000", HttpStatusCode.OK)]
    [InlineData("[::1]:5000", HttpStatusCode.OK)]
    [InlineData("evil.example", HttpStatusCode.MisdirectedRequest)]
    [InlineData("localhost.evil.example", HttpStatusCode.MisdirectedRequest)]
    [InlineData("10.0.0.1", HttpStatusCode.MisdirectedRequest)]
    public async Task The_host_must_be_this_machine(string host, HttpStatusCode expected)
    {
        Assert.Equal(expected, (await world.Get("Patient", ("Host", host))).Status);
    }

    // RFC 9110 §15.5.14: the limit is the last size that passes.
    [Theory]
    [InlineData("Patient", 8 * 1024, HttpStatusCode.Created)]
    [InlineData("Patient", (8 * 1024) + 1, HttpStatusCode.RequestEntityTooLarge)]
    [InlineData("", 32 * 1024, HttpStatusCode.OK)]
    [InlineData("", (32 * 1024) + 1, HttpStatusCode.RequestEntityTooLarge)]
    public async Task Bodies_have_a_limit(string path, int size, HttpStatusCode expected)
    {
        var body = path.Length == 0 ? """{"resourceType":"Bundle","type":"batch"}""" : Some.Patient();

        Assert.Equal(expected, (await world.Post(path, body.PadRight(size))).Status);
    }

    [Fact]
    public async Task A_resource_in_a_bundle_has_a_limit_too()
    {
        var large = Some.Patient("p1", family: new string('x', 13 * 1024));

        var transaction = await world.Post("", Some.Bundle("transaction", Some.Entry("PUT", "Patient/p1", large)));
        var batch = await world.Post("", Some.Bundle("batch", Some.Entry("PUT", "Patient/p1", large)));

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, transaction.Status);
        Assert.StartsWith("413", (string?)batch.Entries[0]["response"]!["status"], StringComparison.Ordinal);
    }

    // R4 http.html#mime-type, RFC 9110 §15.5.7
    [Theory]
    [InlineData("application/fhir+json", "", HttpStatusCode.OK)]
    [InlineData("application/fhir+json; fhirVersion=4.0", "", HttpStatusCode.OK)]
    [InlineData("text/html, */*;q=0.8", "", HttpStatusCode.OK)]
    [InlineData("application/fhir+xml", "", HttpStatusCode.NotAcceptable)]
    [InlineData("application/fhir+json; fhirVersion=3.0", "", HttpStatusCode.NotAcceptable)]
    [InlineData("application/fhir+xml", "_format=json", HttpStatusCode.OK)]
    [InlineData("*/*", "_format=xml", HttpStatusCode.NotAcceptable)]
    [InlineData("*/*", "_format=application/fhir%2Bjson", HttpStatusCode.OK)]
    public async Task Answers_are_json_or_406(string accept, string query, HttpStatusCode expected)
    {
        Assert.Equal(expected, (await world.Get($"Patient?{query}", ("Accept", accept))).Status);
    }

    [Fact]
    public async Task Every_answer_forbids_guessing_its_type()
    {
        Assert.Equal("nosniff", (await world.Get("Patient")).Headers["X-Content-Type-Options"]);
        Assert.Equal("nosniff", (await world.Get("Nothing")).Headers["X-Content-Type-Options"]);
    }

    [Theory]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData("{")]
    [InlineData("nonsense")]
    [InlineData("[]")]
    [InlineData("null")]
    [InlineData("\"Patient\"")]
    [InlineData("{\"resourceType\":\"Patient\"")]
    [InlineData("{\"resourceType\":\"Patient\",\"active\":true}}")]
    [InlineData("{\"resourceType\":\"Patient\",\"active\":true} {}")]
    [InlineData("{\"resourceType\":\"Patient\",\"active\":true,\"active\":false}")]
    [InlineData("{\"resourceType\":\"Patient\",\"language\":\"\\ud800\"}")]
    [InlineData("{\"resourceType\":\"Patient\",\"\\udc00\":1}")]
    [InlineData("{\"resourceType\":\"Nope\"}")]
    [InlineData("{\"resourceType\":5}")]
    [InlineData("{\"active\":true}")]
    [InlineData("{\"resourceType\":\"Patient\",\"unknown\":1}")]
    [InlineData("{\"resourceType\":\"Patient\",\"active\":\"true\"}")]
    [InlineData("{\"resourceType\":\"Patient\",\"gender\":\"none\"}")]
    [InlineData("{\"resourceType\":\"Patient\",\"birthDate\":\"soon\"}")]
    [InlineData("{\"resourceType\":\"Patient\",\"name\":[]}")]
    [InlineData("{\"resourceType\":\"Patient\",\"meta\":5}")]
    public async Task Malformed_content_is_400_and_nothing_is_stored(string body)
    {
        var answer = await world.Post("Patient", body);

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal("OperationOutcome", (string?)answer.Json["resourceType"]);
        Assert.Equal(0, (await world.Get("Patient")).Total);
    }

    [Fact]
    public async Task A_missing_mandatory_element_is_named()
    {
        var answer = await world.Post("Flag", """{"resourceType":"Flag","status":"active","code":{"text":"x"}}""");

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal("required", answer.IssueCode);
        Assert.Equal("Flag.subject", (string?)answer.Json["issue"]![0]!["expression"]![0]);
    }

    [Fact]
    public async Task Refusals_do_not_repeat_content()
    {
        var answer = await world.Post("Patient", """{"resourceType":"Patient","gender":"geheimnis","birthDate":"geheimnis"}""");

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.DoesNotContain("geheimnis", answer.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Bytes_that_are_not_UTF8_are_400()
    {
        using var content = new ByteArrayContent([.. Encoding.ASCII.GetBytes("{\"resourceType\":\"Patient\",\"language\":\""), 0xFF, 0xFE, .. "\"}"u8]);
        content.Headers.TryAddWithoutValidation("Content-Type", "application/fhir+json");

        using var response = await world.Client.PostAsync(new Uri($"{World.Base}/Patient"), content, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.BadRequest, response.StatusCode);
    }

    [Fact]
    public async Task A_byte_order_mark_is_tolerated()
    {
        Assert.Equal(HttpStatusCode.Created, (await world.Post("Patient", "\uFEFF" + Some.Patient())).Status);
    }

    [Theory]
    [InlineData(60, HttpStatusCode.Created)]
    [InlineData(70, HttpStatusCode.BadRequest)]
    [InlineData(3000, HttpStatusCode.BadRequest)]
    public async Task Nesting_has_a_limit(int levels, HttpStatusCode expected)
    {
        // An extension inside an extension is two levels: the array and the object.
        var body = new StringBuilder("""{"resourceType":"Basic","code":{"text":"x"}""");
        var pairs = (levels - 2) / 2;
        for (var i = 0; i < pairs; i++)
        {
            body.Append(""","extension":[{"url":"u" """);
        }

        body.Append(""","valueCode":"x" """);
        body.Insert(body.Length, new StringBuilder().Insert(0, "}]", pairs).ToString()).Append('}');

        var answer = await world.Post("Basic", body.ToString());

        Assert.True(answer.Status == expected || (levels == 3000 && answer.Status == HttpStatusCode.RequestEntityTooLarge), answer.Text);
    }

    [Fact]
    public async Task A_lenient_sandbox_stores_what_only_names_its_type()
    {
        using var lenient = new World(options => options.Validation = SandboxValidation.Lenient);

        var answer = await lenient.Post("Observation", """{"resourceType":"Observation","status":"finalised","surprise":{"a":[1]},"meta":5,"effectiveDateTime":"soon","subject":"p1","valueQuantity":{"value":"12"}}""");

        Assert.Equal(HttpStatusCode.Created, answer.Status);
        Assert.Equal(1, (await lenient.Get("Observation?status=finalised")).Total);
    }

    [Theory]
    [InlineData(401)]
    [InlineData(5000)]
    public async Task A_search_with_very_many_values_is_refused_not_crashed(int values)
    {
        var answer = await world.Post("Patient/_search", "_id=" + string.Join(',', Enumerable.Repeat("a", values)), ("Content-Type", "application/x-www-form-urlencoded"));

        Assert.Contains(answer.Status, new[] { HttpStatusCode.BadRequest, HttpStatusCode.RequestEntityTooLarge });
    }

    [Theory]
    [InlineData("identifier")]
    [InlineData("_id")]
    public async Task A_search_may_name_four_hundred_values(string parameter)
    {
        var values = string.Join(',', Enumerable.Range(0, 400));

        var answer = await world.Post("Patient/_search", $"{parameter}={values}", ("Content-Type", "application/x-www-form-urlencoded"));

        Assert.Equal(HttpStatusCode.OK, answer.Status);
    }

    [Theory]
    [InlineData("Patient?name=%")]
    [InlineData("Patient?name=%ZZ&=&&?&x")]
    [InlineData("Patient?name=%00")]
    [InlineData("Patient?name='; DROP TABLE resource;--")]
    [InlineData("Patient?subject.subject.subject.subject.subject.subject=1")]
    [InlineData("Patient?_has:::=1&_has:Observation:patient=2&.=3&:=4")]
    [InlineData("Patient?birthdate=9999-12-31T23:59:59.9999999Z")]
    [InlineData("Patient?birthdate=0001-01-01T00:00:00%2B14:00")]
    [InlineData("Observation?value-quantity=1e400")]
    [InlineData("Observation?value-quantity=1e2147483648")]
    [InlineData("Observation?value-quantity=1e-99999")]
    [InlineData("Patient?_sort=,,-")]
    [InlineData("Patient?_include=x&_include=Patient:a:b:c:d")]
    [InlineData("%2e%2e/%2e%2e/etc")]
    [InlineData("Patient/%00")]
    [InlineData("Patient//")]
    public async Task Strange_addresses_are_answered(string address)
    {
        var answer = await world.Get(address);

        Assert.Contains((int)answer.Status, new[] { 200, 400, 404 });
        Assert.NotNull((string?)answer.Json["resourceType"]);
    }
}
