using System.Net;
using AirwayGuard.Fhir.Intake;
using static AirwayGuard.Fhir.Tests.Intake.ServerFake;

namespace AirwayGuard.Fhir.Tests.Intake;

/// <summary>Rows whose code stands in a component alone are asked for where the server can be, and said to be unseen where not.</summary>
public sealed class ComponentRowsTests
{
    private const string Panel = """{"resource":{"resourceType":"Observation","id":"p","component":[{"code":{"coding":[{"system":"urn:s","code":"a"}]}}],"code":{"text":"panel"}}}""";

    private static readonly SweepQuery Rows = new("rows", "Observation", [new SweepCode("urn:s", "a")]) { ReadsComponents = true };

    private static readonly SweepQuery Others = new("others", "Procedure", []);

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_server_that_offers_combo_code_is_asked_by_it_on_every_page_and_nothing_is_remarked()
    {
        using var server = new ServerFake(asked => asked == "GET metadata" ? Offer("code", "combo-code")
            : asked.Contains("page=2", StringComparison.Ordinal) ? Json(Searchset(Link("self", "Observation?page=2"), "", Row("1")))
            : Json(Searchset($"{Link("self", asked[4..])},{Link("next", "Observation?page=2")}", "", Panel)));
        var source = server.Source(50, Rows);
        var first = await source.PageAsync("rows", Morning, null, Stop);
        var second = await source.PageAsync("rows", Morning, first.Next, Stop);

        Assert.Equal(["p", "1"], Ids(first).Concat(Ids(second)), StringComparer.Ordinal);
        Assert.Empty(first.Remarks.Concat(second.Remarks));
        Assert.Equal(["GET metadata", "GET Observation?combo-code=urn:s|a&_lastUpdated=ge2026-03-02T08:00:00.000Z&_sort=_lastUpdated&_count=50", "GET Observation?page=2"], server.Asked, StringComparer.Ordinal);
    }

    [Theory]
    [InlineData(200)]
    [InlineData(404)]
    [InlineData(500)]
    public async Task A_server_that_does_not_offer_it_is_asked_by_code_and_what_is_not_seen_is_said(int status)
    {
        using var server = new ServerFake(asked => asked == "GET metadata" ? Offer((HttpStatusCode)status, "code", "component-code") : Bundle(asked[4..], Row("1")));
        var page = await server.Source(50, Rows).PageAsync("rows", Morning, null, Stop);

        Assert.Equal(["1"], Ids(page), StringComparer.Ordinal);
        Assert.Equal("AG4015", Assert.Single(page.Remarks).Code.Id);
        Assert.StartsWith("GET Observation?code=urn:s|a&", server.Asked[1], StringComparison.Ordinal);
        Assert.True(page.IsComplete);
    }

    [Fact]
    public async Task A_server_that_says_in_no_Unicode_what_it_offers_is_asked_by_code()
    {
        using var server = new ServerFake(asked => asked == "GET metadata"
            ? Json("""{"resourceType":"CapabilityStatement","rest":[{"resource":[{"type":"Observation","searchParam":[{"name":"\ud800"},{"name":"combo-code"}]}]}]}""")
            : Bundle(asked[4..], Row("1")));

        Assert.Equal("AG4015", Assert.Single((await server.Source(50, Rows).PageAsync("rows", Morning, null, Stop)).Remarks).Code.Id);
    }

    [Fact]
    public async Task Once_a_server_says_that_it_offers_it_everything_is_asked_once_from_the_beginning()
    {
        var status = HttpStatusCode.InternalServerError;
        using var server = new ServerFake(asked => asked == "GET metadata" ? Offer(status, "combo-code") : Bundle(asked[4..], Row("1")));
        var source = server.Source(50, Rows);
        await source.PageAsync("rows", Morning, null, Stop);
        await source.PageAsync("rows", Morning, null, Stop);
        Assert.Single(server.Asked, "GET metadata");

        status = HttpStatusCode.OK;
        server.Clock.Advance(TimeSpan.FromMinutes(5));
        var whole = await source.PageAsync("rows", Morning, null, Stop);
        await source.PageAsync("rows", Morning, null, Stop);

        Assert.Empty(whole.Remarks);
        Assert.Equal("GET Observation?combo-code=urn:s|a&_sort=_lastUpdated&_count=50", server.Asked[^2]);
        Assert.StartsWith("GET Observation?combo-code=urn:s|a&_lastUpdated=ge", server.Asked[^1], StringComparison.Ordinal);
    }

    // What it offers was refused with all the rest, which says nothing of what it offers.
    [Fact]
    public async Task Once_a_server_that_refused_everything_answers_it_is_asked_anew_what_it_offers()
    {
        var refuses = true;
        using var server = new ServerFake(asked => refuses ? Json("{}", HttpStatusCode.Forbidden) : asked == "GET metadata" ? Offer("combo-code") : Bundle(asked[4..], Row("1")));
        var source = server.Source(50, Rows, Others);
        await source.PageAsync("rows", Morning, null, Stop);
        await source.PageAsync("others", Morning, null, Stop);
        Assert.Single(server.Asked, "GET metadata");

        refuses = false;
        await source.PageAsync("others", Morning, null, Stop);
        var page = await source.PageAsync("rows", Morning, null, Stop);
        await source.PageAsync("others", Morning, null, Stop);

        Assert.Empty(page.Remarks);
        Assert.StartsWith("GET Observation?combo-code=", server.Asked[^2], StringComparison.Ordinal);
        Assert.Equal(2, server.Asked.Count(asked => asked == "GET metadata"));
    }

    [Fact]
    public async Task A_server_that_refuses_to_say_what_it_offers_and_one_question_is_not_asked_for_it_each_time()
    {
        using var server = new ServerFake(asked => asked == "GET metadata" || asked.StartsWith("GET Procedure", StringComparison.Ordinal) ? Json("{}", HttpStatusCode.Forbidden) : Bundle(asked[4..], Row("1")));
        var source = server.Source(50, Rows, Others);
        await source.PageAsync("others", Morning, null, Stop);
        for (var time = 0; time < 9; time++)
        {
            await source.PageAsync("rows", Morning, null, Stop);
        }

        Assert.InRange(server.Asked.Count(asked => asked == "GET metadata"), 1, 2);
    }

    [Fact]
    public async Task A_server_that_offers_it_and_refuses_it_is_asked_by_code_instead()
    {
        using var server = new ServerFake(asked => asked == "GET metadata" ? Offer("combo-code")
            : asked.Contains("combo-code", StringComparison.Ordinal) ? Json("{}", HttpStatusCode.BadRequest) : Bundle(asked[4..], Row("1")));
        var source = server.Source(50, Rows);
        var refused = await source.PageAsync("rows", Morning, null, Stop);
        var page = await source.PageAsync("rows", Morning, null, Stop);

        Assert.Equal(("AG4001", true), (refused.Problem!.Code.Id, refused.IsOffered));
        Assert.Equal(["1"], Ids(page), StringComparer.Ordinal);
        Assert.Equal("AG4015", Assert.Single(page.Remarks).Code.Id);
    }

    [Fact]
    public async Task A_server_that_leaves_the_condition_out_is_told_of_and_its_rows_are_sifted()
    {
        using var server = new ServerFake(asked => asked == "GET metadata" ? Offer("combo-code") : Bundle("Observation?_lastUpdated=ge2026", Panel, Row("1", code: "other")));
        var page = await server.Source(50, Rows).PageAsync("rows", Morning, null, Stop);

        Assert.Equal(["p"], Ids(page), StringComparer.Ordinal);
        Assert.Contains("combo-code", Assert.Single(page.Remarks).Why, StringComparison.Ordinal);
    }

    [Fact]
    public void A_Subscription_asks_by_the_parameter_that_every_server_has()
    {
        Assert.Equal("Observation?code=urn%3As%7Ca", Rows.Criteria);
    }

    private static HttpResponseMessage Offer(params string[] parameters) => Offer(HttpStatusCode.OK, parameters);

    private static HttpResponseMessage Offer(HttpStatusCode status, params string[] parameters) => Json(
        $$"""{"resourceType":"CapabilityStatement","rest":[{"mode":"server","resource":[{"type":"Observation","searchParam":[{{string.Join(',', parameters.Select(one => $$"""{"name":"{{one}}","type":"token"}"""))}}]}]}]}""",
        status);
}
