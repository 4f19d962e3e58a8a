using System.Net;
using Xunit;

namespace AirwayGuard.Sandbox.Tests;

public sealed class SearchTests : IDisposable
{
    private readonly World world = new();

    public void Dispose() => world.Dispose();

    // R4 search.html#token, #reference, #date, #quantity, #string
    [Theory]
    [InlineData("code=suction-pressure", "a,b")]
    [InlineData("code=urn:demo:codes|suction-pressure", "a,b")]
    [InlineData("code=urn:other|suction-pressure", "")]
    [InlineData("code=|suction-pressure", "")]
    [InlineData("code=urn:demo:codes|", "a,b,c")]
    [InlineData("code=suction-pressure,catheter-size", "a,b,c")]
    [InlineData("code=urn:demo:codes|catheter-size,urn:demo:codes|none", "c")]
    [InlineData("code:not=suction-pressure", "c")]
    [InlineData("combo-code=urn:demo:codes|suction-pressure", "a,b")]
    [InlineData("patient=p1", "a,c")]
    [InlineData("patient=Patient/p1", "a,c")]
    [InlineData("subject=Patient/p2", "b")]
    [InlineData("subject:Patient=p2", "b")]
    [InlineData("subject=http://localhost/fhir/Patient/p2", "b")]
    [InlineData("subject=http://elsewhere/fhir/Patient/p2", "")]
    [InlineData("subject=Device/p1", "")]
    [InlineData("encounter=e1&device=Device/d1", "a,b,c")]
    [InlineData("status=final", "a,b")]
    [InlineData("status=http://hl7.org/fhir/observation-status|final", "a,b")]
    [InlineData("status=final&patient=p1", "a")]
    [InlineData("category=therapy", "a,b,c")]
    [InlineData("date=2026-03-01", "a,b")]
    [InlineData("date=ge2026-03-01T07:30:00Z", "a,b,c")]
    [InlineData("date=gt2026-03-01T07:30:00Z", "b,c")]
    [InlineData("date=lt2026-03-01T07:45:00Z", "a")]
    [InlineData("date=le2026-03-01T07:45:00Z", "a,b")]
    [InlineData("date=ge2026-03-01&date=lt2026-03-02", "a,b")]
    [InlineData("date=ge2026-03-01T09:30:00%2B02:00&date=lt2026-03-01T08:31:00+01:00", "a")]
    [InlineData("date=sa2026-03-01", "c")]
    [InlineData("date=eb2026-03-02", "a,b")]
    [InlineData("date=ne2026-03-01", "c")]
    [InlineData("date=2026", "a,b,c")]
    [InlineData("_id=a,c", "a,c")]
    [InlineData("value-quantity=gt120", "b")]
    [InlineData("value-quantity=120", "a")]
    [InlineData("value-quantity=120.0|http://unitsofmeasure.org|mm[Hg]", "a")]
    [InlineData("value-quantity=120||kPa", "")]
    [InlineData("value-quantity=lt120||[Ch]", "c")]
    [InlineData("specimen:missing=true&patient=p1", "a,c")]
    [InlineData("device:missing=true", "")]
    [InlineData("patient.family=muster", "a,c")]
    [InlineData("subject:Patient.name=beisp", "b")]
    public async Task A_search_finds_what_R4_says(string query, string expected)
    {
        await Ward();

        var answer = await world.Get($"Observation?{query}&_sort=_id", ("Prefer", "handling=strict"));

        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Equal(expected, string.Join(',', answer.Ids));
        Assert.Equal(answer.Ids.Count, answer.Total);
    }

    [Theory]
    [InlineData("family=MUST", "p1")]
    [InlineData("family:exact=muster", "")]
    [InlineData("family:exact=Muster", "p1")]
    [InlineData("name:contains=spi", "p2")]
    [InlineData("given=rena", "p1,p2")]
    [InlineData("birthdate=1961-05-04", "p1,p2")]
    [InlineData("active=true", "p1,p2")]
    [InlineData("deceased=false", "p1,p2")]
    [InlineData("identifier=urn:demo:mrn|a\\,b\\|c", "p2")]
    [InlineData("_has:Observation:patient:code=catheter-size", "p1")]
    public async Task Patients_are_found(string query, string expected)
    {
        await Ward();

        var answer = await world.Get($"Patient?{Uri.EscapeDataString(query).Replace("%3D", "=", StringComparison.Ordinal)}&_sort=_id", ("Prefer", "handling=strict"));

        Assert.Equal(expected, string.Join(',', answer.Ids));
    }

    [Theory]
    [InlineData("_sort=date", "a,b,c")]
    [InlineData("_sort=-date", "c,b,a")]
    [InlineData("_sort=_lastUpdated", "c,b,a")]
    [InlineData("_sort=-_lastUpdated", "a,b,c")]
    [InlineData("_sort=-_id", "c,b,a")]
    [InlineData("_sort=patient,-date", "c,a,b")]
    [InlineData("", "c,b,a")]
    public async Task Matches_come_in_the_order_asked_for(string query, string expected)
    {
        await Ward();

        Assert.Equal(expected, string.Join(',', (await world.Get($"Observation?{query}")).Ids));
    }

    [Fact]
    public async Task LastUpdated_takes_several_bounds()
    {
        for (var i = 0; i < 5; i++)
        {
            await world.Put($"Patient/p{i}", Some.Patient($"p{i}"));
            world.Clock.Advance(TimeSpan.FromMilliseconds(1));
        }

        async Task<string> Ids(string query) => string.Join(',', (await world.Get($"Patient?{query}")).Ids);

        Assert.Equal("p2,p3,p4", await Ids("_lastUpdated=ge2026-03-01T08:00:00.002Z"));
        Assert.Equal("p3,p4", await Ids("_lastUpdated=gt2026-03-01T08:00:00.002Z"));
        Assert.Equal("p1,p2", await Ids("_lastUpdated=ge2026-03-01T08:00:00.001Z&_lastUpdated=lt2026-03-01T08:00:00.003Z"));
        Assert.Equal("p0,p1", await Ids("_lastUpdated=le2026-03-01T08:00:00.001Z"));
        Assert.Equal("p3", await Ids("_lastUpdated=2026-03-01T08:00:00.003Z"));
    }

    [Fact]
    public async Task A_search_bundle_tells_the_servers_time_and_where_each_match_lives()
    {
        await Ward();
        world.Clock.Advance(TimeSpan.FromMinutes(1));

        var answer = await world.Get("Observation?_id=a");

        Assert.Equal("searchset", (string?)answer.Json["type"]);
        Assert.Equal("2026-03-01T08:01:00.003Z", (string?)answer.Json["meta"]!["lastUpdated"]);
        Assert.Equal($"{World.Base}/Observation/a", (string?)answer.Entries[0]["fullUrl"]);
        Assert.Equal("match", (string?)answer.Entries[0]["search"]!["mode"]);
    }

    // R4 search.html#errors
    [Fact]
    public async Task An_unknown_parameter_is_ignored_and_left_out_of_self_or_refused_when_strict()
    {
        await world.Post("Flag", Some.Flag("k1"));

        var lenient = await world.Get("Flag?status=nonsense&patient=p1");
        var strict = await world.Get("Flag?status=nonsense&patient=p1", ("Prefer", "handling=strict"));

        Assert.Equal(1, lenient.Total);
        Assert.Equal($"{World.Base}/Flag?patient=p1", lenient.Link("self"));
        Assert.Equal(HttpStatusCode.BadRequest, strict.Status);
        Assert.Equal("not-supported", strict.IssueCode);
    }

    [Theory]
    [InlineData("DeviceUseStatement", "device", true)]
    [InlineData("DeviceUseStatement", "patient", true)]
    [InlineData("DeviceUseStatement", "status", false)]
    [InlineData("Flag", "status", false)]
    [InlineData("Flag", "author", true)]
    [InlineData("Provenance", "target", true)]
    [InlineData("DetectedIssue", "status", false)]
    [InlineData("DetectedIssue", "implicated", true)]
    [InlineData("Encounter", "location", true)]
    [InlineData("DeviceMetric", "source", true)]
    [InlineData("Device", "property", false)]
    [InlineData("Observation", "code-value-quantity", false)]
    public async Task Only_the_types_own_parameters_are_known(string type, string parameter, bool known)
    {
        var answer = await world.Get($"{type}?{parameter}=x", ("Prefer", "handling=strict"));

        Assert.Equal(known ? HttpStatusCode.OK : HttpStatusCode.BadRequest, answer.Status);
    }

    // Each link of these may lead to any type, which multiplies what is compared.
    [Theory]
    [InlineData("focus.focus.focus.focus.subject=a")]
    [InlineData("focus.identifier=a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a,a")]
    public async Task A_chain_that_compares_too_much_is_refused_as_too_costly(string query)
    {
        var answer = await world.Get($"Observation?{query}");

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Contains("too-costly", answer.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("_lastUpdated=notadate")]
    [InlineData("date=2026-13-01")]
    [InlineData("_count=-1")]
    [InlineData("_count=many")]
    [InlineData("code:above=x")]
    [InlineData("code=a|b|c")]
    [InlineData("value-quantity=abc")]
    [InlineData("value-quantity=1e-99999999999")]
    [InlineData("value-quantity=0e99999999999")]
    [InlineData("value-quantity=0e400")]
    [InlineData("value-quantity=1e5+")]
    [InlineData("code:missing=perhaps")]
    public async Task A_value_or_modifier_that_means_nothing_is_400(string query)
    {
        Assert.Equal(HttpStatusCode.BadRequest, (await world.Get($"Observation?{query}")).Status);
    }

    // R4 http.html#search: POST [type]/_search with a form, the query string counts too.
    [Fact]
    public async Task A_search_can_be_posted()
    {
        await Ward();

        var answer = await world.Post("Observation/_search?patient=p1", "code=suction-pressure&_sort=_id", ("Content-Type", "application/x-www-form-urlencoded"));

        Assert.Equal("a", Assert.Single(answer.Ids));
        Assert.Equal($"{World.Base}/Observation?patient=p1&code=suction-pressure&_sort=_id", answer.Link("self"));
    }

    [Theory]
    [InlineData("_summary=count")]
    [InlineData("_count=0")]
    public async Task Only_the_number_can_be_asked_for(string query)
    {
        await Ward();

        var answer = await world.Get($"Observation?{query}");

        Assert.Equal(3, answer.Total);
        Assert.Empty(answer.Entries);
    }

    // R4 search.html#include
    [Fact]
    public async Task Referenced_and_referring_resources_are_sent_along_once()
    {
        await Ward();

        var include = await world.Get("Observation?_sort=_id&_include=Observation:patient");
        var reverse = await world.Get("Patient?_id=p1&_revinclude=Observation:subject");

        Assert.Equal(["a", "b", "c", "p1", "p2"], include.Ids);
        Assert.Equal(3, include.Total);
        Assert.Equal("include", (string?)include.Entries[3]["search"]!["mode"]);
        Assert.Equal(["p1", "c", "a"], reverse.Ids);
    }

    [Fact]
    public async Task An_update_replaces_what_is_found_by()
    {
        await world.Put("Observation/a", Some.Observation(code: "before", id: "a"));
        await world.Put("Observation/a", Some.Observation(code: "after", id: "a"));

        Assert.Equal(0, (await world.Get("Observation?code=before")).Total);
        Assert.Equal(1, (await world.Get("Observation?code=after")).Total);
    }

    private async Task Ward()
    {
        await world.Put("Patient/p1", Some.Patient("p1"));
        await world.Put("Patient/p2", Some.Patient("p2", family: "Beispiel", mrn: "a,b|c"));
        foreach (var (id, content) in new[]
        {
            ("c", Some.Observation(code: "catheter-size", when: "2026-03-02T10:00:00Z", value: 12, unit: "[Ch]", status: "preliminary", id: "c")),
            ("b", Some.Observation(patient: "Patient/p2", when: "2026-03-01T07:45:00Z", value: 150, id: "b")),
            ("a", Some.Observation(id: "a")),
        })
        {
            world.Clock.Advance(TimeSpan.FromMilliseconds(1));
            await world.Put($"Observation/{id}", content);
        }
    }
}
