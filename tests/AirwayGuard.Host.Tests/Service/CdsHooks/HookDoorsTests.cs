using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Host.Tests.Commands;
using Xunit;

namespace AirwayGuard.Host.Tests.Service.CdsHooks;

public sealed class HookDoorsTests
{
    private const string Sign = "/cds-services/suction-order-sign";

    [Fact]
    public async Task InTheDemoOnLoopback_NobodyIsAskedWhoTheyAre()
    {
        await using var service = await GivenService.StartAsync("demo");

        Assert.Contains("suction-order-sign", await service.TextAsync("/cds-services"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task OnAServerOfItsOwn_WithoutClients_TheDoorsAreClosed()
    {
        await using var service = await GivenService.StartAsync();

        await RefusedAsync(await service.GetAsync("/cds-services"), 404, "AG8115");
        await RefusedAsync(await PostAsync(service, Sign, "{}"), 404, "AG8115");
    }

    [Fact]
    public async Task WithClients_ACallWithoutToken_Is401_AlsoForDiscoveryAndInTheDemo()
    {
        foreach (var demo in (string[][])[[], ["demo"]])
        {
            await using var service = await GivenService.StartAsync([.. demo, "AirwayGuard:CdsHooks:Clients:0:Issuer=https://ehr.example.org", "AirwayGuard:CdsHooks:Clients:0:KeySet=https://ehr.example.org/jwks"]);

            using var answer = await service.GetAsync("/cds-services");
            Assert.Equal("Bearer", answer.Headers.WwwAuthenticate.ToString());
            await RefusedAsync(answer, 401, "AG8201");
            await RefusedAsync(await PostAsync(service, Sign, "{}"), 401, "AG8201");
            await RefusedAsync(await PostAsync(service, Sign + "/feedback", "{}"), 401, "AG8201");
        }
    }

    [Fact]
    public async Task ASignedCall_IsLetInOnce()
    {
        using var folder = new GivenFolder();
        folder.File("keys.json", SigningKey.Set(SigningKey.First.Jwk()));
        await using var service = await GivenService.StartAsync(
            $"AirwayGuard:CdsHooks:Clients:0:Issuer={GivenCheck.Issuer}", $"AirwayGuard:CdsHooks:Clients:0:KeyFile={folder.Of("keys.json")}", "AirwayGuard:CdsHooks:Address=https://ag.hosp.example.org");
        var now = SystemClock.Instance.GetUtcNow().ToUnixTimeSeconds();
        var token = Token.Of(SigningKey.First).Claim("aud", "https://ag.hosp.example.org/cds-services").Claim("iat", now).Claim("exp", now + 300).Sent();

        using var first = await service.GetAsync("/cds-services", ("Authorization", token));
        Assert.Equal(HttpStatusCode.OK, first.StatusCode);
        await RefusedAsync(await service.GetAsync("/cds-services", ("Authorization", token)), 401, "AG8210");
        Assert.DoesNotContain(token[7..40], service.Log, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Sign, "{", 400, "AG8101")]
    [InlineData(Sign, "[]", 400, "AG8101")]
    [InlineData(Sign, "{}", 400, "AG8103")]
    [InlineData(Sign, """{"hook":"patient-view"}""", 400, "AG8103")]
    [InlineData(Sign, """{"hook":"order-sign","hookInstance":"1","context":{}}""", 400, "AG8104")]
    [InlineData(Sign, """{"hook":"order-sign","hookInstance":"1","context":{"patientId":"p1","draftOrders":[]}}""", 400, "AG8105")]
    [InlineData("/cds-services/other", "{}", 404, "AG8102")]
    [InlineData(Sign + "/feedback", "{}", 400, "AG8113")]
    [InlineData(Sign + "/feedback", """{"feedback":[{"card":"6f7b2f0e-2a52-4b39-9c3e-0c2f4f0d7a11","outcome":"accepted","outcomeTimestamp":"2026-03-02T09:31:00Z"}]}""", 404, "AG8114")]
    [InlineData("/cds-services/other/feedback", "{}", 404, "AG8102")]
    public async Task BadInput_IsToldWithStatusCodeAndPlace_AsAProblem(string path, string body, int status, string code)
    {
        await using var service = await GivenService.StartAsync("demo");

        await RefusedAsync(await PostAsync(service, path, body), status, code);
    }

    [Fact]
    public async Task AMethodThatIsNotServed_Is405()
    {
        await using var service = await GivenService.StartAsync("demo");

        using var answer = await service.SendAsync(HttpMethod.Put, Sign, new StringContent("{}", Encoding.UTF8, "application/json"));
        Assert.Equal(405, (int)answer.StatusCode);
        using var read = await service.GetAsync(Sign);
        Assert.Equal(405, (int)read.StatusCode);
    }

    // A body that stalls ends the same way, after the seconds that the web server waits.
    [Fact]
    public async Task ABodyThatBreaksOff_Is400_AndNoFaultOfTheService()
    {
        await using var service = await GivenService.StartAsync("demo");
        var root = new Uri(service.Root);
        using var client = new TcpClient();
        await client.ConnectAsync(root.Host, root.Port, TestContext.Current.CancellationToken);
        await using var wire = client.GetStream();

        await wire.WriteAsync(Encoding.ASCII.GetBytes($"POST {Sign} HTTP/1.1\r\nHost: {root.Authority}\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\nnone\r\n"), TestContext.Current.CancellationToken);

        using var answer = new StreamReader(wire);
        var text = await answer.ReadToEndAsync(TestContext.Current.CancellationToken);
        Assert.StartsWith("HTTP/1.1 400 ", text, StringComparison.Ordinal);
        Assert.Contains("AG8118", text, StringComparison.Ordinal);
        Assert.DoesNotContain("ERR", service.Log, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AnotherContentType_Is415_AndAForeignOrigin403()
    {
        await using var service = await GivenService.StartAsync("demo");

        await RefusedAsync(await service.SendAsync(HttpMethod.Post, Sign, new StringContent("{}", Encoding.UTF8, "text/plain")), 415, "AG8111");
        await RefusedAsync(await service.SendAsync(HttpMethod.Post, Sign, null), 415, "AG8111");
        await RefusedAsync(await service.SendAsync(HttpMethod.Post, Sign, new StringContent("{}", Encoding.UTF8, "application/json"), ("Origin", "https://evil.example.org")), 403, "AG1007");
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task ABodyOverTwoMegabytes_Is413_HoweverItComes(bool chunked)
    {
        await using var service = await GivenService.StartAsync("demo");
        using var body = new StringContent("{\"a\":\"" + new string('a', 2_000_000) + "\"}", Encoding.UTF8, "application/json");
        using var answer = chunked
            ? await service.SendAsync(HttpMethod.Post, Sign, body, ("Transfer-Encoding", "chunked"))
            : await service.SendAsync(HttpMethod.Post, Sign, body);

        await RefusedAsync(answer, 413, "AG8110");
    }

    [Fact]
    public async Task FiveThousandDrafts_AreRefusedAtOnce_AndFiveHundredAreJudged()
    {
        await using var service = await GivenService.StartAsync("demo");

        await RefusedAsync(await PostAsync(service, Sign, Many(5_000)), 400, "AG8106");
        using var answer = await PostAsync(service, Sign, Many(500));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }

    [Fact]
    public async Task MoreThanSoManyASecond_Is429_AndSaysWhenToComeAgain()
    {
        await using var service = await GivenService.StartAsync("demo", "AirwayGuard:CdsHooks:MostASecond=1");

        for (var i = 0; i < 50; i++)
        {
            using var answer = await service.GetAsync("/cds-services");
            if ((int)answer.StatusCode == 429)
            {
                Assert.Equal("1", answer.Headers.GetValues("Retry-After").Single());
                await RefusedAsync(answer, 429, "AG8112");
                return;
            }
        }

        Assert.Fail("Fifty calls in a row were all let in.");
    }

    [Fact]
    public async Task NothingOfARequest_IsLogged_OrTold_WhateverComesOfIt()
    {
        await using var service = await GivenService.StartAsync("demo");
        await service.SweptAsync();
        foreach (var body in (string[])[Order("hush-words"), Order("hush-words").Replace("draft-1", "hush words", StringComparison.Ordinal), "{\"hush-words\":", Order("x").Replace("Patient/p1", "Patient/hush-words", StringComparison.Ordinal)])
        {
            using var answer = await PostAsync(service, Sign, body);
            if (!answer.IsSuccessStatusCode)
            {
                Assert.DoesNotContain("hush", await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
            }
        }

        Assert.DoesNotContain("hush", service.Log, StringComparison.Ordinal);
        Assert.DoesNotContain("hush", await service.TextAsync("/metrics"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhatWasAsked_IsCounted()
    {
        await using var service = await GivenService.StartAsync("demo");
        using var first = await PostAsync(service, Sign, "{}");
        using var second = await PostAsync(service, "/cds-services/unheard-of", "{}");

        var metrics = await service.TextAsync("/metrics");

        Assert.Contains("airwayguard_hook_answers_total{service=\"suction-order-sign\",status=\"400\"} 1", metrics, StringComparison.Ordinal);
        Assert.Contains("airwayguard_hook_answers_total{service=\"none\",status=\"404\"} 1", metrics, StringComparison.Ordinal);
        Assert.DoesNotContain("unheard-of", metrics, StringComparison.Ordinal);
    }

    private static string Order(string text) => new JsonObject
    {
        ["hook"] = "order-sign",
        ["hookInstance"] = "1",
        ["context"] = new JsonObject
        {
            ["patientId"] = "p1",
            ["draftOrders"] = new JsonObject
            {
                ["resourceType"] = "Bundle",
                ["entry"] = new JsonArray(new JsonObject
                {
                    ["resource"] = new JsonObject
                    {
                        ["resourceType"] = "ServiceRequest", ["id"] = "draft-1", ["status"] = "draft", ["intent"] = "order",
                        ["code"] = new JsonObject { ["text"] = "Suction endotracheal tube " + text }, ["subject"] = new JsonObject { ["reference"] = "Patient/p1" },
                    },
                }),
            },
        },
    }.ToJsonString();

    private static string Many(int count)
    {
        var request = JsonNode.Parse(Order("q2h"))!;
        var entries = request["context"]!["draftOrders"]!["entry"]!.AsArray();
        var first = entries[0]!;
        for (var i = 1; i < count; i++)
        {
            var another = first.DeepClone();
            another["resource"]!["id"] = $"draft-{i + 1}";
            another["resource"]!["code"]!["text"] = "Chest radiograph";
            entries.Add(another);
        }

        first["resource"]!["code"]!["text"] = "Chest radiograph";
        return request.ToJsonString();
    }

    private static Task<HttpResponseMessage> PostAsync(GivenService service, string path, string body) =>
        service.SendAsync(HttpMethod.Post, path, new StringContent(body, Encoding.UTF8, "application/json"));

    private static async Task RefusedAsync(HttpResponseMessage answer, int status, string code)
    {
        var body = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.True(status == (int)answer.StatusCode, $"{(int)answer.StatusCode}: {body}");
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        var problem = JsonNode.Parse(body)!;
        Assert.Equal((code, status), ((string?)problem["code"], (int?)problem["status"]));
        Assert.False(string.IsNullOrEmpty((string?)problem["where"]));
        Assert.False(string.IsNullOrEmpty((string?)problem["detail"]));
        answer.Dispose();
    }
}
