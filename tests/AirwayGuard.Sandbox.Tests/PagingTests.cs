using System.Net;
using Xunit;

namespace AirwayGuard.Sandbox.Tests;

public sealed class PagingTests : IDisposable
{
    private readonly World world = new();

    public void Dispose() => world.Dispose();

    // R4 http.html#paging
    [Theory]
    [InlineData(1, 7)]
    [InlineData(2, 4)]
    [InlineData(3, 3)]
    [InlineData(7, 1)]
    [InlineData(50, 1)]
    public async Task Next_links_lead_through_every_match_once(int count, int pages)
    {
        await Patients(7);

        var (ids, seen) = await Walk($"Patient?_count={count}&_sort=_id");

        Assert.Equal(["p0", "p1", "p2", "p3", "p4", "p5", "p6"], ids);
        Assert.Equal(pages, seen);
    }

    [Fact]
    public async Task Pages_neither_skip_nor_repeat_while_others_write()
    {
        await Patients(6);
        var first = await world.Get("Patient?_count=2&_sort=-_lastUpdated");

        await world.Put("Patient/p5", Some.Patient("p5", family: "Later"));
        await world.Delete("Patient/p1");
        await world.Put("Patient/p9", Some.Patient("p9"));
        var (rest, _) = await Walk(first.Link("next")!);

        Assert.Equal(["p5", "p4"], first.Ids);
        Assert.Equal(["p3", "p2", "p1", "p0"], rest);
        Assert.Equal(6, first.Total);
    }

    [Fact]
    public async Task A_page_has_at_most_what_the_server_allows()
    {
        using var small = new World(options => (options.MaxPageSize, options.DefaultPageSize) = (3, 2));
        for (var i = 0; i < 5; i++)
        {
            await small.Post("Patient", Some.Patient());
        }

        Assert.Equal(3, (await small.Get("Patient?_count=500")).Ids.Count);
        Assert.Equal(2, (await small.Get("Patient")).Ids.Count);
    }

    [Fact]
    public async Task A_link_kept_no_longer_is_410_also_after_a_restart()
    {
        using var small = new World(options => options.KeptResultSets = 1);
        await small.Put("Patient/p0", Some.Patient("p0"));
        await small.Put("Patient/p1", Some.Patient("p1"));

        var first = (await small.Get("Patient?_count=1")).Link("next")!;
        var second = (await small.Get("Patient?_count=1")).Link("next")!;
        var pushedOut = await small.Get(first);
        var kept = await small.Get(second);
        small.Restart();
        await small.Get("Patient?_count=1");
        var restarted = await small.Get(second);

        Assert.Equal((HttpStatusCode.Gone, "expired"), (pushedOut.Status, pushedOut.IssueCode));
        Assert.Equal("p1", Assert.Single(kept.Ids));
        Assert.Equal(HttpStatusCode.Gone, restarted.Status);
    }

    [Fact]
    public async Task An_instances_history_is_newest_first_with_its_deletion()
    {
        await world.Put("Patient/p1", Some.Patient("p1"));
        world.Clock.Advance(TimeSpan.FromSeconds(1));
        await world.Put("Patient/p1", Some.Patient("p1"));
        world.Clock.Advance(TimeSpan.FromSeconds(1));
        await world.Delete("Patient/p1");

        var answer = await world.Get("Patient/p1/_history");

        // R4 http.html#history: a deletion is an entry without a resource.
        Assert.Equal("history", (string?)answer.Json["type"]);
        Assert.Equal(3, answer.Total);
        Assert.Equal(["DELETE", "PUT", "PUT"], answer.Methods);
        Assert.False(answer.Entries[0].ContainsKey("resource"));
        Assert.Equal("Patient/p1", (string?)answer.Entries[0]["request"]!["url"]);
        Assert.Equal("W/\"3\"", (string?)answer.Entries[0]["response"]!["etag"]);
        Assert.Equal("2", (string?)answer.Entries[1]["resource"]!["meta"]!["versionId"]);
        Assert.Equal(HttpStatusCode.NotFound, (await world.Get("Patient/nobody/_history")).Status);
    }

    [Fact]
    public async Task A_types_history_is_paged_and_takes_since()
    {
        await Patients(3);
        await world.Post("Flag", Some.Flag("k1"));
        await world.Put("Patient/p0", Some.Patient("p0"));

        var (all, pages) = await Walk("Patient/_history?_count=2");
        var (since, _) = await Walk("Patient/_history?_since=2026-03-01T08:00:00.002Z");
        var (system, _) = await Walk("_history");

        Assert.Equal(["p0", "p2", "p1", "p0"], all);
        Assert.Equal(2, pages);
        Assert.Equal(["p0", "p2"], since);
        Assert.Equal(5, system.Count);
    }

    [Theory]
    [InlineData("_since=yesterday")]
    [InlineData("_count=x")]
    public async Task A_history_parameter_that_means_nothing_is_400(string query)
    {
        Assert.Equal(HttpStatusCode.BadRequest, (await world.Get($"Patient/_history?{query}")).Status);
    }

    private async Task Patients(int count)
    {
        for (var i = 0; i < count; i++)
        {
            await world.Put($"Patient/p{i}", Some.Patient($"p{i}"));
            world.Clock.Advance(TimeSpan.FromMilliseconds(1));
        }
    }

    private async Task<(List<string> Ids, int Pages)> Walk(string first)
    {
        var (ids, pages) = (new List<string>(), 0);
        for (var next = first; next is not null; pages++)
        {
            var page = await world.Get(next);
            Assert.Equal(HttpStatusCode.OK, page.Status);
            ids.AddRange(page.Ids);
            next = page.Link("next");
        }

        return (ids, pages);
    }
}
