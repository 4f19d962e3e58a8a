using System.Net;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Intake;
using static AirwayGuard.Fhir.Tests.Intake.ServerFake;

namespace AirwayGuard.Fhir.Tests.Intake;

/// <summary>The habits of real servers that concern reading: each is met, and none is believed silently.</summary>
public sealed class ServerHabitsTests
{
    private static readonly SweepQuery Rows = new("rows", "Observation", [new SweepCode("urn:s", "a"), new SweepCode("urn:s", "b")]);
    private static readonly SweepQuery Patients = new("Patient", "Patient", []);

    [Fact]
    public async Task A_question_names_codes_time_order_and_size_and_asks_for_strictness()
    {
        using var server = new ServerFake(asked => Bundle(asked[4..]));
        var page = await server.Source(50, Rows).PageAsync("rows", Morning, null, Stop);

        Assert.Equal("GET Observation?code=urn:s|a,urn:s|b&_lastUpdated=ge2026-03-02T08:00:00.000Z&_sort=_lastUpdated&_count=50", Assert.Single(server.Asked));
        Assert.Empty(page.Remarks);
        Assert.Equal((true, false, true), (page.Next is null, page.IsWhole, page.IsComplete));
    }

    [Fact]
    public async Task A_server_that_leaves_out_the_time_is_told_of_and_asked_for_everything_instead()
    {
        using var server = new ServerFake(asked => Bundle("Observation?code=urn:s|a", asked.Contains("_lastUpdated=", StringComparison.Ordinal) ? [] : [Row("1", -9_000)]));
        var (pages, ids) = await AllAsync(server.Source(50, Rows), "rows", Morning);

        Assert.Equal(["1"], ids);
        Assert.Equal("AG4007", Assert.Single(pages[0].Remarks).Code.Id);
        Assert.Contains("_lastUpdated", pages[0].Remarks[0].Why, StringComparison.Ordinal);
        Assert.True(pages[0].IsWhole);
        Assert.DoesNotContain("_lastUpdated=ge", server.Asked[1], StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_server_that_leaves_out_the_time_and_cuts_its_pages_is_read_to_the_end_by_larger_ones()
    {
        var all = Enumerable.Range(0, 30).Select(i => Row($"{i:00}", i)).ToArray();
        using var server = new ServerFake(asked => Bundle("Observation?code=x", [.. all.Take(int.Parse(asked[(asked.LastIndexOf('=') + 1)..], System.Globalization.CultureInfo.InvariantCulture))]));
        var (pages, ids) = await AllAsync(server.Source(10, Rows), "rows", Morning.AddHours(-1));

        Assert.Equal(30, ids.Distinct(StringComparer.Ordinal).Count());
        Assert.True(pages[^1].IsComplete);
        Assert.InRange(server.Asked.Count, 2, 4);
    }

    [Fact]
    public async Task A_server_that_leaves_out_the_codes_is_told_of_and_its_rows_are_sifted_on_every_page()
    {
        string[] first = [Row("1", code: "a"), Row("2", code: "other"), Row("3", system: "urn:other")];
        string[] second = [Row("4", code: "b"), Row("5", code: "other")];
        using var server = new ServerFake(asked => asked.Contains("page=2", StringComparison.Ordinal)
            ? Json(Searchset(Link("self", "Observation?page=2"), "", second))
            : Json(Searchset($"{Link("self", "Observation?_lastUpdated=ge2026")},{Link("next", "Observation?page=2")}", "", first)));
        var (pages, ids) = await AllAsync(server.Source(50, Rows), "rows", Morning);

        Assert.Equal(["1", "4"], ids);
        Assert.Equal("AG4007", Assert.Single(pages[0].Remarks).Code.Id);
        Assert.Contains("code", pages[0].Remarks[0].Why, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Rows_are_sifted_by_the_codes_of_their_components_too()
    {
        const string Panel = """{"resource":{"resourceType":"Observation","id":"p","component":[{"code":{"coding":[{"system":"urn:s","code":"b"}]}}],"code":{"text":"panel"}}}""";
        const string Odd = """{"resource":{"resourceType":"Observation","id":"odd","code":7,"component":[7,{"code":{"coding":[7,{"system":7}]}}]}}""";
        using var server = new ServerFake(_ => Bundle("Observation", Panel, Odd));

        Assert.Equal(["p"], Ids(await server.Source(50, Rows).PageAsync("rows", null, null, Stop)), StringComparer.Ordinal);
    }

    [Fact]
    public async Task A_server_that_does_not_say_what_it_used_is_told_of_and_believed_as_far_as_its_rows_bear_it_out()
    {
        using var server = new ServerFake(_ => Json(Searchset("", "", Row("1", 1), Row("2", 2, code: "other"))));
        var page = await server.Source(50, Rows).PageAsync("rows", Morning, null, Stop);

        Assert.Equal(["1"], Ids(page), StringComparer.Ordinal);
        Assert.Equal("2", Assert.Single(page.LeftOut).Id);
        Assert.Equal("AG4008", Assert.Single(page.Remarks).Code.Id);
        Assert.Equal((true, false), (page.Next is null, page.IsWhole));
    }

    [Fact]
    public async Task A_server_that_says_nothing_and_answers_with_older_rows_is_asked_for_everything()
    {
        using var server = new ServerFake(_ => Json(Searchset("", "", Row("1", -2))));
        var (pages, ids) = await AllAsync(server.Source(50, Rows), "rows", Morning);

        Assert.Equal(["1", "1"], ids);
        Assert.True(pages[0].IsWhole);
    }

    [Theory]
    [InlineData("_sort=_lastUpdated&_count=50&_lastUpdated=ge2026-03-02T08%3A00%3A00Z&code=urn%3As%7Ca,urn%3As%7Cb")]
    [InlineData("code:text=x&%5FlastUpdated=ge2026")]
    [InlineData("_lastUpdated=ge2026&code=urn:s|a")]
    public async Task Conditions_in_another_order_or_spelling_are_honoured_ones(string self)
    {
        using var server = new ServerFake(_ => Bundle("Observation?" + self, Row("1", code: "other")));
        var page = await server.Source(50, Rows).PageAsync("rows", Morning, null, Stop);

        Assert.Empty(page.Remarks);
        Assert.Equal(["1"], Ids(page), StringComparer.Ordinal);
    }

    [Fact]
    public async Task A_full_page_without_a_next_link_is_no_end()
    {
        var all = Enumerable.Range(0, 25).Select(i => (At: (double)i, Entry: Row($"{i:00}", i))).ToArray();
        using var server = new ServerFake(asked => Bundle(asked[4..], [.. all.Where(row => row.At >= Since(asked)).Take(10).Select(row => row.Entry)]));
        var (pages, ids) = await AllAsync(server.Source(10, Rows), "rows", null);

        Assert.Equal(25, ids.Distinct(StringComparer.Ordinal).Count());
        Assert.All(pages, page => Assert.Empty(page.Remarks));
        Assert.True(pages[^1].IsComplete);
    }

    [Fact]
    public async Task A_page_filled_by_one_instant_is_asked_again_larger()
    {
        var all = Enumerable.Range(0, 25).Select(i => Row($"{i:00}")).ToArray();
        using var server = new ServerFake(asked => Bundle(asked[4..], [.. all.Take(asked.EndsWith("_count=40", StringComparison.Ordinal) ? 40 : 10)]));
        var (pages, ids) = await AllAsync(server.Source(10, Rows), "rows", Morning);

        Assert.Equal(25, ids.Distinct(StringComparer.Ordinal).Count());
        Assert.True(pages[^1].IsComplete);
    }

    [Fact]
    public async Task A_page_that_is_full_at_its_largest_is_told_of_and_moves_no_cursor()
    {
        using var server = new ServerFake(asked =>
            Bundle(asked[4..], [.. Enumerable.Range(0, int.Parse(asked[(asked.LastIndexOf('=') + 1)..], System.Globalization.CultureInfo.InvariantCulture)).Select(i => Row($"{i}"))]));
        var (pages, _) = await AllAsync(server.Source(1_000, Patients), "Patient", Morning);

        Assert.False(pages[^1].IsComplete);
        Assert.Equal("AG4009", Assert.Single(pages[^1].Remarks).Code.Id);
    }

    [Fact]
    public async Task A_server_that_gives_fewer_than_asked_and_no_next_link_is_believed_only_up_to_its_total()
    {
        var all = Enumerable.Range(0, 50).Select(i => (At: (double)i, Entry: Row($"{i:00}", i))).ToArray();
        using var server = new ServerFake(asked =>
        {
            var left = all.Where(row => row.At >= Since(asked)).Select(row => row.Entry).ToArray();
            return Json(Searchset(Link("self", asked[4..]), $"\"total\":{left.Length},", [.. left.Take(20)]));
        });
        var (pages, ids) = await AllAsync(server.Source(500, Rows), "rows", null);

        Assert.Equal(50, ids.Distinct(StringComparer.Ordinal).Count());
        Assert.All(pages, page => Assert.Empty(page.Remarks));
    }

    [Fact]
    public async Task A_total_that_is_never_reached_is_told_of_and_holds_nothing_up()
    {
        using var server = new ServerFake(asked => Json(Searchset(Link("self", asked[4..]), "\"total\":7,", Row("1"), Row("2"))));
        var source = server.Source(500, Rows);
        var doubted = await source.PageAsync("rows", Morning, null, Stop);
        var page = await source.PageAsync("rows", Morning, null, Stop);

        Assert.Equal("AG4009", doubted.Problem?.Code.Id);
        Assert.Equal("AG4009", Assert.Single(page.Remarks).Code.Id);
        Assert.Equal((true, true), (page.Next is null, page.IsComplete));
    }

    [Fact]
    public async Task A_further_page_cut_short_is_noticed_by_the_total_and_the_rest_is_asked_for()
    {
        var all = Enumerable.Range(0, 9).Select(i => (At: (double)i, Entry: Row($"{i}", i))).ToArray();
        using var server = new ServerFake(asked =>
        {
            var left = all.Where(row => row.At >= Since(asked)).Select(row => row.Entry).ToArray();
            return asked.Contains("page=2", StringComparison.Ordinal) ? Json(Searchset(Link("self", "Observation?page=2"), "\"total\":9,", all[4].Entry, all[5].Entry))
                : left.Length == 9 ? Json(Searchset($"{Link("self", asked[4..])},{Link("next", "Observation?page=2")}", "\"total\":9,", [.. left.Take(4)]))
                : Json(Searchset(Link("self", asked[4..]), $"\"total\":{left.Length},", left));
        });
        var (pages, ids) = await AllAsync(server.Source(4, Rows), "rows", null);

        Assert.Equal(9, ids.Distinct(StringComparer.Ordinal).Count());
        Assert.True(pages[^1].IsComplete);
    }

    [Fact]
    public async Task A_last_page_that_is_full_and_all_of_one_instant_is_the_end_where_the_total_is_reached()
    {
        using var server = new ServerFake(asked => asked.Contains("page=2", StringComparison.Ordinal)
            ? Json(Searchset(Link("self", "Observation?page=2"), "\"total\":4,", Row("3"), Row("4")))
            : Json(Searchset($"{Link("self", asked[4..])},{Link("next", "Observation?page=2")}", "\"total\":4,", Row("1"), Row("2"))));
        var (pages, ids) = await AllAsync(server.Source(2, Rows), "rows", Morning);

        Assert.Equal(4, ids.Count);
        Assert.True(pages[^1].IsComplete);
        Assert.Empty(pages[^1].Remarks);
    }

    [Fact]
    public async Task A_further_page_kept_no_longer_is_trouble_of_this_answer_and_no_refusal_of_the_question()
    {
        using var server = new ServerFake(asked => asked.Contains("page=2", StringComparison.Ordinal)
            ? Json("{}", HttpStatusCode.NotFound)
            : Json(Searchset($"{Link("self", asked[4..])},{Link("next", "Observation?page=2")}", "", Row("1"))));
        var source = server.Source(1, Rows);
        var first = await source.PageAsync("rows", Morning, null, Stop);
        var second = await source.PageAsync("rows", Morning, first.Next, Stop);

        Assert.Equal(("AG4001", true), (second.Problem?.Code.Id, second.IsOffered));
    }

    [Fact]
    public async Task A_next_link_that_leads_to_its_own_page_leads_nowhere()
    {
        using var server = new ServerFake(asked => Json(Searchset($"{Link("self", asked[4..])},{Link("next", asked[4..])}", "", Row("1"))));
        var page = await server.Source(50, Patients).PageAsync("Patient", null, null, Stop);

        Assert.Null(page.Next);
    }

    [Fact]
    public async Task A_next_link_is_followed_whatever_it_looks_like_and_the_time_of_every_page_is_the_servers()
    {
        using var server = new ServerFake(asked => asked.Contains("_snapshot", StringComparison.Ordinal)
            ? Bundle("Observation?_snapshot=7&_offset=1", Row("2"))
            : Json(Searchset($"{Link("self", asked[4..])},{Link("next", "_snapshot?id=7&_offset=1")}", "", Row("1"))));
        var (pages, ids) = await AllAsync(server.Source(500, Rows), "rows", Morning);

        Assert.Equal(["1", "2"], ids);
        Assert.Equal("GET _snapshot?id=7&_offset=1", server.Asked[1]);
        Assert.All(pages, page => Assert.Equal(Morning, page.ServerTime));
    }

    [Theory]
    [InlineData("https://elsewhere.example.org/fhir/Observation?page=2")]
    [InlineData("http://ehr.example.org/fhir/Observation?page=2")]
    [InlineData("https://ehr.example.org/other/Observation?page=2")]
    public async Task A_next_link_to_elsewhere_is_refused_by_the_gate_and_not_asked(string next)
    {
        using var server = new ServerFake(asked => Json(Searchset($"{Link("self", asked[4..])},{Link("next", next)}", "", Row("1"))));
        var source = server.Source(500, Rows);
        var first = await source.PageAsync("rows", Morning, null, Stop);
        var second = await source.PageAsync("rows", Morning, first.Next, Stop);

        Assert.Equal(("AG4003", true), (second.Problem!.Code.Id, second.IsOffered));
        Assert.Single(server.Asked);
        Assert.DoesNotContain("example", second.Problem.Why + second.Problem.Where, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Stamps_are_kept_to_the_last_digit_and_versions_are_never_understood()
    {
        using var server = new ServerFake(asked => Bundle(asked[4..], Row("1", 0.1234567, version: "6e1b-4f"), Row("2", 1, version: "10"), Row("3", 1, version: "9")));
        var page = await server.Source(500, Rows).PageAsync("rows", Morning, null, Stop);

        Assert.Equal(["6e1b-4f", "10", "9"], page.Arrivals.Select(arrival => arrival.Version), StringComparer.Ordinal);
        Assert.Equal(Morning.AddTicks(1_234_567), page.Arrivals[0].KnownAt);
        Assert.All(page.Arrivals, arrival => Assert.Equal((KnownBy.ServersStamp, Address), (arrival.KnownBy, arrival.Source)));
    }

    [Fact]
    public async Task A_row_without_a_stamp_became_known_at_the_servers_time_of_answering()
    {
        using var server = new ServerFake(asked => Bundle(asked[4..], """{"resource":{"resourceType":"Observation","id":"1"}}"""));
        var arrival = Assert.Single((await server.Source(500, Rows).PageAsync("rows", Morning, null, Stop)).Arrivals);

        Assert.Equal((Morning, KnownBy.Received), (arrival.KnownAt, arrival.KnownBy));
    }

    [Fact]
    public async Task The_Date_header_is_the_servers_time_where_the_Bundle_has_none_and_our_clock_never_is()
    {
        using var server = new ServerFake(_ => Json("""{"resourceType":"Bundle","type":"searchset","link":[{"relation":"self","url":"https://ehr.example.org/fhir/Patient?_lastUpdated=ge2026"}]}"""));
        var without = await server.Source(500, Patients).PageAsync("Patient", Morning, null, Stop);
        var before = server.Answer;
        server.Answer = asked =>
        {
            var response = before(asked);
            response.Headers.Date = Morning.AddMinutes(7);
            return response;
        };
        var with = await server.Source(500, Patients).PageAsync("Patient", Morning, null, Stop);

        Assert.Equal("AG4004", without.Problem!.Code.Id);
        Assert.Equal(Morning.AddMinutes(7), with.ServerTime);
    }

    [Theory]
    [InlineData("90", 90)]
    [InlineData("Mon, 02 Mar 2026 08:02:00 GMT", 120)]
    [InlineData("Mon, 02 Mar 2026 07:00:00 GMT", 0)]
    [InlineData("86400", 3600)]
    public async Task A_busy_servers_wait_is_handed_on_in_both_forms_and_bounded(string header, int seconds)
    {
        using var server = new ServerFake(_ =>
        {
            var response = new HttpResponseMessage(HttpStatusCode.TooManyRequests);
            response.Headers.TryAddWithoutValidation("Retry-After", header);
            return response;
        });

        Assert.Equal(TimeSpan.FromSeconds(seconds), (await server.Source(500, Rows).PageAsync("rows", Morning, null, Stop)).RetryAfter);
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static double Since(string asked)
    {
        var at = asked.IndexOf("_lastUpdated=ge", StringComparison.Ordinal);
        return at < 0 ? double.MinValue
            : (DateTimeOffset.Parse(asked[(at + 15)..].Split('&')[0], System.Globalization.CultureInfo.InvariantCulture) - Morning).TotalSeconds;
    }

    private static async Task<(List<SourcePage> Pages, List<string?> Ids)> AllAsync(FhirArrivalSource source, string query, DateTimeOffset? since)
    {
        var pages = new List<SourcePage>();
        string? next = null;
        do
        {
            var page = await source.PageAsync(query, since, next, Stop);
            Assert.Null(page.Problem);
            pages.Add(page);
            next = page.Next;
            Assert.InRange(pages.Count, 1, 20);
        }
        while (next is not null);
        return (pages, [.. pages.SelectMany(Ids)]);
    }
}
