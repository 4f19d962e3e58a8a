using System.Net;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Intake;
using static AirwayGuard.Fhir.Tests.Intake.ServerFake;

namespace AirwayGuard.Fhir.Tests.Intake;

/// <summary>What was deleted is asked of the history of its type, where the server offers one, and said to be unseen where not.</summary>
public sealed class DeletionTests
{
    private static readonly SweepQuery Deleted = SweepQueries.Deletions.Single(query => query.Type == "Observation");

    [Fact]
    public async Task A_deletion_in_the_history_arrives_and_nothing_else_of_it()
    {
        using var server = new ServerFake(asked => asked == "GET metadata" ? Offer("history-type") : History(
            """{"resource":{"resourceType":"Observation","id":"3"},"request":{"method":"PUT","url":"Observation/3"}}""",
            Deletion("Observation/1", "\"etag\":\"W/\\\"2\\\"\",\"lastModified\":\"2026-03-02T07:59:00Z\","),
            """{"resource":{"resourceType":"Observation","id":"2"},"request":{"method":"POST","url":"Observation"}}"""));
        var page = await server.Source(50, Deleted).PageAsync(Deleted.Name, Morning.AddHours(-1), null, Stop);

        var arrival = Assert.Single(page.Arrivals);
        Assert.Equal((ArrivalKind.Deletion, "Observation", "1", "2"), (arrival.Kind, arrival.Type, arrival.Id, arrival.Version));
        Assert.Equal(Morning.AddMinutes(-1), arrival.KnownAt);
        Assert.Equal("GET Observation/_history?_since=2026-03-02T07:00:00.000Z&_count=50", server.Asked[1]);
        Assert.Equal((Morning, true, true), (page.ServerTime, page.Next is null, page.IsComplete));
        Assert.Equal(["3", "2"], page.LeftOut.Select(static left => left.Id!), StringComparer.Ordinal);
    }

    [Fact]
    public async Task A_deletion_without_a_time_became_known_by_the_answer_and_before_what_the_history_lists_above_it()
    {
        using var server = new ServerFake(asked => asked == "GET metadata" ? Offer("history-type") : History(
            Deletion("Observation/9", ""),
            """{"resource":{"resourceType":"Observation","id":"1","meta":{"lastUpdated":"2026-03-02T07:30:00Z"}},"request":{"method":"PUT","url":"Observation/1"}}""",
            Deletion("Observation/1", "")));
        var page = await server.Source(50, Deleted).PageAsync(Deleted.Name, Morning.AddHours(-1), null, Stop);

        Assert.Equal(["9", "1"], Ids(page), StringComparer.Ordinal);
        Assert.Equal(Morning, page.Arrivals[0].KnownAt);
        Assert.True(page.Arrivals[1].KnownAt < Morning.AddMinutes(-30));
    }

    [Theory]
    [InlineData("search-type")]
    [InlineData("history-instance")]
    public async Task A_server_that_offers_no_history_of_the_type_is_told_of_and_not_asked_for_it(string interaction)
    {
        using var server = new ServerFake(_ => Offer(interaction));
        var page = await server.Source(50, Deleted).PageAsync(Deleted.Name, Morning, null, Stop);

        Assert.Equal(("AG4010", false), (page.Problem!.Code.Id, page.IsOffered));
        Assert.Equal(["GET metadata"], server.Asked);
    }

    [Theory]
    [InlineData(404)]
    [InlineData(405)]
    [InlineData(501)]
    public async Task A_server_that_offers_it_and_refuses_it_is_told_of_alike(int status)
    {
        using var server = new ServerFake(asked => asked == "GET metadata" ? Offer("history-type") : new HttpResponseMessage((HttpStatusCode)status));
        var page = await server.Source(50, Deleted).PageAsync(Deleted.Name, Morning, null, Stop);

        Assert.Equal(("AG4010", false), (page.Problem!.Code.Id, page.IsOffered));
    }

    [Theory]
    [InlineData(503, "")]
    [InlineData(200, "<html/>")]
    [InlineData(200, "{\"resourceType\":\"Bundle\"}")]
    public async Task Where_nobody_can_say_what_is_offered_it_is_asked_again_soon(int status, string body)
    {
        using var server = new ServerFake(_ => Json(body, (HttpStatusCode)status));
        var page = await server.Source(50, Deleted).PageAsync(Deleted.Name, Morning, null, Stop);

        Assert.Equal(("AG4001", true), (page.Problem!.Code.Id, page.IsOffered));
    }

    [Fact]
    public async Task What_is_offered_is_asked_once_an_hour()
    {
        using var server = new ServerFake(_ => Offer("search-type"));
        var source = server.Source(50, [.. SweepQueries.Deletions]);
        await source.PageAsync(Deleted.Name, Morning, null, Stop);
        await source.PageAsync("deleted-Patient", Morning, null, Stop);
        var before = server.Asked.Count;
        server.Clock.Advance(TimeSpan.FromHours(1));
        await source.PageAsync(Deleted.Name, Morning, null, Stop);

        Assert.Equal((1, 2), (before, server.Asked.Count));
    }

    [Fact]
    public async Task A_full_page_of_history_without_a_next_link_is_asked_again_larger()
    {
        var all = Enumerable.Range(0, 15).Select(i => Deletion($"Observation/{i}", $"\"lastModified\":\"2026-03-02T07:{59 - i}:00Z\",")).ToArray();
        using var server = new ServerFake(asked => asked == "GET metadata" ? Offer("history-type") : History([.. all.Take(asked.EndsWith("_count=40", StringComparison.Ordinal) ? 40 : 10)]));
        var source = server.Source(10, Deleted);
        var first = await source.PageAsync(Deleted.Name, Morning.AddHours(-1), null, Stop);
        var second = await source.PageAsync(Deleted.Name, Morning.AddHours(-1), first.Next, Stop);

        Assert.Equal((10, 15, true), (first.Arrivals.Count, second.Arrivals.Count, second.Next is null));
    }

    [Fact]
    public void Deletions_are_asked_of_every_type_that_is_read_but_what_we_wrote_ourselves()
    {
        using var server = new ServerFake(_ => Offer(""));
        var source = server.Source(50, [new SweepQuery("rows", "Observation", []), .. SweepQueries.Deletions]);

        Assert.Equal(["rows"], source.Types);
        Assert.Contains("deleted-Patient", source.Deletions, StringComparer.Ordinal);
        Assert.Contains("deleted-Procedure", source.Deletions, StringComparer.Ordinal);
        Assert.DoesNotContain("deleted-Flag", source.Deletions, StringComparer.Ordinal);
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static HttpResponseMessage Offer(string interaction) => Json($$"""
        {"resourceType":"CapabilityStatement","rest":[{"mode":"client","resource":[{"type":"Observation","interaction":[{"code":"history-type"}]}]},
         {"mode":"server","resource":[{"type":"Observation","interaction":[{"code":"read"},{"code":"{{interaction}}"}]},{"type":"Flag"}]}]}
        """);

    private static HttpResponseMessage History(params string[] entries) =>
        Json($$"""{"resourceType":"Bundle","type":"history","meta":{"lastUpdated":"2026-03-02T08:00:00Z"},"entry":[{{string.Join(',', entries)}}]}""");

    private static string Deletion(string url, string response) =>
        $$$"""{"request":{"method":"DELETE","url":"{{{url}}}"},"response":{{{{response}}}"status":"204"}}""";
}
