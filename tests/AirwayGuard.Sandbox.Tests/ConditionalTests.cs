using System.Net;
using Xunit;

namespace AirwayGuard.Sandbox.Tests;

public sealed class ConditionalTests : IDisposable
{
    private readonly World world = new();

    public void Dispose() => world.Dispose();

    // R4 http.html#ccreate: none 201, one 200 with that one, several 412.
    [Fact]
    public async Task A_conditional_create_makes_one_finds_one_or_refuses_many()
    {
        var condition = ("If-None-Exist", "identifier=urn:demo:key|k1");

        var made = await world.Post("Flag", Some.Flag("k1"), condition);
        var found = await world.Post("Flag", Some.Flag("k1", patient: "Patient/other"), condition);
        await world.Post("Flag", Some.Flag("k1"));
        var many = await world.Post("Flag", Some.Flag("k1"), condition);

        Assert.Equal(HttpStatusCode.Created, made.Status);
        Assert.Equal(HttpStatusCode.OK, found.Status);
        Assert.Equal(made.Id, found.Id);
        Assert.Equal(made.Headers["Location"], found.Headers["Location"]);
        Assert.Contains("Patient/p1", found.Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.PreconditionFailed, many.Status);
        Assert.Equal("multiple-matches", many.IssueCode);
    }

    [Fact]
    public async Task Sixteen_equal_conditional_creates_at_once_make_exactly_one()
    {
        var tasks = Enumerable.Range(0, 16)
            .Select(_ => Task.Run(() => world.Post("Flag", Some.Flag("k1"), ("If-None-Exist", "identifier=urn:demo:key|k1"))));
        var answers = await Task.WhenAll(tasks);

        Assert.Single(answers, answer => answer.Status == HttpStatusCode.Created);
        Assert.Equal(15, answers.Count(answer => answer.Status == HttpStatusCode.OK));
        Assert.Single(answers.Select(answer => answer.Id).Distinct(StringComparer.Ordinal));
        Assert.Equal(1, (await world.Get("Flag?identifier=urn:demo:key|k1")).Total);
    }

    // R4 http.html#cond-update
    [Fact]
    public async Task A_conditional_update_creates_updates_or_refuses()
    {
        const string address = "Patient?identifier=urn:demo:mrn|1";

        var made = await world.Put(address, Some.Patient(mrn: "1"));
        var updated = await world.Put(address, Some.Patient(mrn: "1", family: "Neu"));
        var otherId = await world.Put(address, Some.Patient("x", mrn: "1"));
        await world.Post("Patient", Some.Patient(mrn: "1"));
        var many = await world.Put(address, Some.Patient(mrn: "1"));

        Assert.Equal(HttpStatusCode.Created, made.Status);
        Assert.Equal(HttpStatusCode.OK, updated.Status);
        Assert.Equal((made.Id, "2"), (updated.Id, updated.Version));
        Assert.Equal(HttpStatusCode.BadRequest, otherId.Status);
        Assert.Equal(HttpStatusCode.PreconditionFailed, many.Status);
    }

    [Fact]
    public async Task A_conditional_update_that_finds_nothing_keeps_a_free_client_id_and_refuses_a_taken_one()
    {
        var free = await world.Put("Patient?identifier=urn:demo:mrn|1", Some.Patient("p1", mrn: "1"));
        var taken = await world.Put("Patient?identifier=urn:demo:mrn|2", Some.Patient("p1", mrn: "2"));

        Assert.Equal((HttpStatusCode.Created, "p1"), (free.Status, free.Id));
        Assert.Equal(HttpStatusCode.Conflict, taken.Status);
    }

    [Theory]
    [InlineData("")]
    [InlineData("?_count=5")]
    public async Task Criteria_that_select_nothing_in_particular_are_refused(string query)
    {
        var answer = await world.Put($"Patient{query}", Some.Patient());

        Assert.Equal(HttpStatusCode.PreconditionFailed, answer.Status);
    }

    [Fact]
    public async Task Criteria_with_an_unknown_parameter_are_refused_rather_than_ignored()
    {
        var answer = await world.Post("Flag", Some.Flag("k1"), ("If-None-Exist", "status=active&identifier=urn:demo:key|k1"));

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal(0, (await world.Get("Flag")).Total);
    }

    // R4 http.html#concurrency, RFC 9110 §13.1.1
    [Theory]
    [InlineData("W/\"2\"", HttpStatusCode.OK)]
    [InlineData("\"2\"", HttpStatusCode.OK)]
    [InlineData("W/\"1\", W/\"2\"", HttpStatusCode.OK)]
    [InlineData("*", HttpStatusCode.OK)]
    [InlineData("W/\"1\"", HttpStatusCode.PreconditionFailed)]
    [InlineData("W/\"3\"", HttpStatusCode.PreconditionFailed)]
    [InlineData("nonsense", HttpStatusCode.BadRequest)]
    public async Task If_Match_lets_through_only_the_current_version(string tags, HttpStatusCode expected)
    {
        await world.Put("Patient/p1", Some.Patient("p1"));
        await world.Put("Patient/p1", Some.Patient("p1"));

        var answer = await world.Put("Patient/p1", Some.Patient("p1"), ("If-Match", tags));

        Assert.Equal(expected, answer.Status);
        Assert.Equal(expected == HttpStatusCode.OK ? "3" : "2", (await world.Get("Patient/p1")).Version);
    }

    [Fact]
    public async Task If_Match_on_nothing_and_If_None_Match_on_something_fail()
    {
        var nothing = await world.Put("Patient/p1", Some.Patient("p1"), ("If-Match", "W/\"1\""));
        var made = await world.Put("Patient/p1", Some.Patient("p1"), ("If-None-Match", "*"));
        var something = await world.Put("Patient/p1", Some.Patient("p1"), ("If-None-Match", "*"));
        var stale = await world.Delete("Patient/p1", ("If-Match", "W/\"9\""));

        Assert.Equal(HttpStatusCode.PreconditionFailed, nothing.Status);
        Assert.Equal(HttpStatusCode.Created, made.Status);
        Assert.Equal(HttpStatusCode.PreconditionFailed, something.Status);
        Assert.Equal(HttpStatusCode.PreconditionFailed, stale.Status);
        Assert.Equal(HttpStatusCode.OK, (await world.Get("Patient/p1")).Status);
    }

    // R4 http.html#3.1.0.7.1: a server that deletes single matches only answers several with 412.
    [Fact]
    public async Task A_conditional_delete_takes_one_and_refuses_many()
    {
        await world.Post("Flag", Some.Flag("k1"));
        await world.Post("Flag", Some.Flag("k2"));
        await world.Post("Flag", Some.Flag("k2"));

        var one = await world.Delete("Flag?identifier=urn:demo:key|k1");
        var none = await world.Delete("Flag?identifier=urn:demo:key|k1");
        var many = await world.Delete("Flag?identifier=urn:demo:key|k2");

        Assert.Equal(HttpStatusCode.NoContent, one.Status);
        Assert.Equal(HttpStatusCode.NoContent, none.Status);
        Assert.Equal(HttpStatusCode.PreconditionFailed, many.Status);
        Assert.Equal(2, (await world.Get("Flag")).Total);
    }
}
