using System.Net;
using System.Text.Json;
using AirwayGuard.Fhir.Intake;
using static AirwayGuard.Fhir.Tests.Intake.ServerFake;

namespace AirwayGuard.Fhir.Tests.Intake;

/// <summary>Subscriptions as they are written, and how answers about them are read.</summary>
public sealed class SubscriptionClientTests
{
    private static readonly Uri Endpoint = new("http://127.0.0.1:8480/notify/rows");

    [Fact]
    public async Task A_Subscription_is_a_rest_hook_without_payload_that_carries_our_token()
    {
        var body = "";
        using var server = new ServerFake(asked =>
        {
            body = asked[asked.IndexOf('{', StringComparison.Ordinal)..];
            return new HttpResponseMessage(HttpStatusCode.Created) { Headers = { Location = new Uri(Address + "Subscription/s1/_history/1") } };
        });
        var made = await server.Subscriptions().CreateAsync("Observation?code=a", Endpoint, "secret", "requested", Stop);
        using var sent = JsonDocument.Parse(body);
        var channel = sent.RootElement.GetProperty("channel");

        Assert.Equal(new SubscriptionMade("s1", false), made);
        Assert.Equal("Observation?code=a", sent.RootElement.GetProperty("criteria").GetString());
        Assert.Equal(("rest-hook", Endpoint.AbsoluteUri), (channel.GetProperty("type").GetString(), channel.GetProperty("endpoint").GetString()));
        Assert.Equal("Authorization: Bearer secret", Assert.Single(channel.GetProperty("header").EnumerateArray()).GetString());
        Assert.False(channel.TryGetProperty("payload", out _));
    }

    [Theory]
    [InlineData(400, true)]
    [InlineData(404, true)]
    [InlineData(405, true)]
    [InlineData(422, true)]
    [InlineData(501, true)]
    [InlineData(401, false)]
    [InlineData(429, false)]
    [InlineData(500, false)]
    [InlineData(200, false)]
    public async Task What_the_server_does_not_take_is_told_from_what_it_may_take_later(int status, bool isRefused)
    {
        using var server = new ServerFake(_ => new HttpResponseMessage((HttpStatusCode)status));

        Assert.Equal(new SubscriptionMade(null, isRefused), await server.Subscriptions().CreateAsync("Patient?", Endpoint, "t", "requested", Stop));
    }

    [Fact]
    public async Task The_id_is_read_from_the_body_where_there_is_no_Location()
    {
        using var server = new ServerFake(_ => Json("""{"resourceType":"Subscription","id":"s2","status":"requested"}""", HttpStatusCode.Created));

        Assert.Equal("s2", (await server.Subscriptions().CreateAsync("Patient?", Endpoint, "t", "requested", Stop)).Id);
    }

    [Theory]
    [InlineData(200, "{\"status\":\"active\"}", SubscriptionState.Active)]
    [InlineData(200, "{\"status\":\"requested\"}", SubscriptionState.Requested)]
    [InlineData(200, "{\"status\":\"error\"}", SubscriptionState.Stopped)]
    [InlineData(200, "{\"status\":\"off\"}", SubscriptionState.Stopped)]
    [InlineData(200, "<html/>", SubscriptionState.Unknown)]
    [InlineData(200, "{\"status\":7}", SubscriptionState.Unknown)]
    [InlineData(404, "", SubscriptionState.Gone)]
    [InlineData(410, "", SubscriptionState.Gone)]
    [InlineData(503, "", SubscriptionState.Unknown)]
    public async Task The_state_is_what_the_server_says_and_unknown_where_it_says_nothing(int status, string body, SubscriptionState state)
    {
        using var server = new ServerFake(_ => Json(body, (HttpStatusCode)status));

        Assert.Equal(state, await server.Subscriptions().StateAsync("s1", Stop));
    }

    [Theory]
    [InlineData(200, SubscriptionWrite.Done)]
    [InlineData(201, SubscriptionWrite.Done)]
    [InlineData(404, SubscriptionWrite.Refused)]
    [InlineData(405, SubscriptionWrite.Refused)]
    [InlineData(503, SubscriptionWrite.Unknown)]
    public async Task Writing_over_keeps_the_id(int status, SubscriptionWrite written)
    {
        using var server = new ServerFake(asked =>
        {
            Assert.Contains("\"id\":\"s1\"", asked, StringComparison.Ordinal);
            return new HttpResponseMessage((HttpStatusCode)status);
        });

        Assert.Equal(written, await server.Subscriptions().UpdateAsync("s1", "Patient?", Endpoint, "t", "requested", Stop));
        Assert.Equal("PUT Subscription/s1", Assert.Single(server.Asked));
    }

    [Fact]
    public async Task Of_a_server_that_answers_with_everybodys_only_those_that_notify_our_address_are_ours()
    {
        using var server = new ServerFake(_ => Json(Searchset("", "",
            Entry("Subscription", "theirs", "http://127.0.0.1:8480/notify/other"), Entry("Subscription", "ours", Endpoint.AbsoluteUri), Entry("Basic", "odd", Endpoint.AbsoluteUri))));

        Assert.Equal(["ours"], await server.Subscriptions().FindAsync(Endpoint, Stop));
    }

    [Theory]
    [InlineData("{\"id\":\"s1\",\"id\":\"s2\",\"status\":\"active\"}")]
    [InlineData("{\"entry\":[{\"resource\":{\"id\":\"a\",\"id\":\"b\"}}],\"entry\":[]}")]
    [InlineData("{\"status\":\"\\ud800\",\"entry\":[{\"resource\":{\"id\":\"\\ud800\"}}]}")]
    public async Task An_answer_that_says_a_thing_twice_or_in_no_Unicode_says_nothing(string body)
    {
        using var server = new ServerFake(_ => Json(body));

        Assert.Empty(await server.Subscriptions().FindAsync(Endpoint, Stop));
        Assert.Equal(SubscriptionState.Unknown, await server.Subscriptions().StateAsync("s1", Stop));
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static string Entry(string type, string id, string endpoint) => $$$"""{"resource":{"resourceType":"{{{type}}}","id":"{{{id}}}","channel":{"endpoint":"{{{endpoint}}}"} } }""";
}
