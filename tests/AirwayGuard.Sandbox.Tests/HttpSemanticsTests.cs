using Xunit;

namespace AirwayGuard.Sandbox.Tests;

/// <summary>Conditional requests by the sections of RFC 9110, and by R4's page of HTTP (http.html).</summary>
public sealed class HttpSemanticsTests : IAsyncLifetime
{
    private const string At = "Sun, 01 Mar 2026 08:00:00 GMT", Before = "Sun, 01 Mar 2026 07:59:59 GMT", After = "Sun, 01 Mar 2026 08:00:01 GMT";
    private readonly World world = new();

    public async ValueTask InitializeAsync()
    {
        await world.Put("Patient/p1", Some.Patient("p1"));
        await world.Put("Patient/p1", Some.Patient("p1"));
    }

    public ValueTask DisposeAsync()
    {
        world.Dispose();
        return ValueTask.CompletedTask;
    }

    // The resource stands at version 2, changed at 08:00:00. "-" stands for a resource that is not there.
    [Theory]
    [InlineData("13.1.1", "GET", "p1", "If-Match: W/\"2\"", 200)]
    [InlineData("13.1.1", "GET", "p1", "If-Match: W/\"1\"", 412)]
    [InlineData("13.1.1", "GET", "p1", "If-Match: *", 200)]
    [InlineData("13.1.1", "PUT", "p1", "If-Match: W/\"2\"", 200)]
    [InlineData("13.1.1", "PUT", "p1", "If-Match: W/\"1\", W/\"2\"", 200)]
    [InlineData("13.1.1", "PUT", "p1", "If-Match: W/\"1\"", 412)]
    [InlineData("13.1.1", "PUT", "-", "If-Match: *", 412)]
    [InlineData("13.1.1", "DELETE", "p1", "If-Match: W/\"1\"", 412)]
    [InlineData("13.1.1 not its form", "PUT", "p1", "If-Match: garbage", 400)]
    [InlineData("13.1.1 not its form", "PUT", "p1", "If-Match: 2", 400)]
    [InlineData("13.1.1 not its form", "PUT", "p1", "If-Match: W/\"2\", garbage", 400)]
    [InlineData("13.1.1 not its form", "PUT", "p1", "If-Match: W/\"2", 400)]
    [InlineData("13.1.1 not its form", "DELETE", "p1", "If-Match: garbage", 400)]
    [InlineData("13.1.1 not its form", "GET", "p1", "If-Match: garbage", 400)]
    [InlineData("13.1.2 not its form", "PUT", "p1", "If-None-Match: garbage", 400)]
    [InlineData("13.1.1", "DELETE", "p1", "If-Match: W/\"2\"", 204)]
    [InlineData("13.1.2", "GET", "p1", "If-None-Match: W/\"2\"", 304)]
    [InlineData("13.1.2", "GET", "p1", "If-None-Match: \"2\"", 304)]
    [InlineData("13.1.2", "GET", "p1", "If-None-Match: W/\"1\"", 200)]
    [InlineData("13.1.2", "GET", "p1", "If-None-Match: *", 304)]
    [InlineData("13.1.2", "HEAD", "p1", "If-None-Match: W/\"2\"", 304)]
    [InlineData("13.1.2", "PUT", "p1", "If-None-Match: *", 412)]
    [InlineData("13.1.2", "PUT", "-", "If-None-Match: *", 201)]
    [InlineData("13.1.2", "PUT", "p1", "If-None-Match: W/\"2\"", 412)]
    [InlineData("13.1.2", "PUT", "p1", "If-None-Match: W/\"1\"", 200)]
    [InlineData("13.1.3", "GET", "p1", "If-Modified-Since: " + At, 304)]
    [InlineData("13.1.3", "GET", "p1", "If-Modified-Since: " + Before, 200)]
    [InlineData("13.1.3", "HEAD", "p1", "If-Modified-Since: " + After, 304)]
    [InlineData("13.1.3", "GET", "p1", "If-Modified-Since: yesterday", 200)]
    [InlineData("13.1.3", "PUT", "p1", "If-Modified-Since: " + After, 200)]
    [InlineData("13.1.4", "GET", "p1", "If-Unmodified-Since: " + Before, 412)]
    [InlineData("13.1.4", "PUT", "p1", "If-Unmodified-Since: " + Before, 412)]
    [InlineData("13.1.4", "PUT", "p1", "If-Unmodified-Since: " + At, 200)]
    [InlineData("13.1.4", "DELETE", "p1", "If-Unmodified-Since: " + Before, 412)]
    [InlineData("13.1.4", "PUT", "p1", "If-Unmodified-Since: yesterday", 200)]
    [InlineData("13.2.2 step 1 before 2", "PUT", "p1", "If-Match: W/\"2\"; If-Unmodified-Since: " + Before, 200)]
    [InlineData("13.2.2 step 1 before 3", "GET", "p1", "If-Match: W/\"1\"; If-None-Match: W/\"2\"", 412)]
    [InlineData("13.2.2 step 3 before 4", "GET", "p1", "If-None-Match: W/\"1\"; If-Modified-Since: " + At, 200)]
    [InlineData("13.2.1 a condition is no cure", "GET", "-", "If-None-Match: W/\"2\"", 404)]
    public async Task AConditionalRequest_IsAnsweredAsTheSectionSays(string section, string method, string id, string conditions, int status)
    {
        id = id == "-" ? "p9" : id;
        var headers = conditions.Split("; ").Select(one => one.Split(": ", 2)).Select(parts => (parts[0], parts[1])).ToArray();

        var answer = await world.Send(new HttpMethod(method), $"Patient/{id}", method == "PUT" ? Some.Patient(id) : null, headers);

        Assert.True(status == (int)answer.Status, $"§{section}: {(int)answer.Status}");
        Assert.True(status != 304 || answer.Text.Length == 0);
        if (status is 412 or 400)
        {
            Assert.Equal(id == "p1" ? "200 2" : "404 none", await StandingAsync(id));
        }
    }

    // R4 http.html#ccreate and #cond-update, with as many resources that match as the first column says.
    [Theory]
    [InlineData(0, "POST", 201, 1)]
    [InlineData(1, "POST", 200, 1)]
    [InlineData(2, "POST", 412, 2)]
    [InlineData(0, "PUT", 201, 1)]
    [InlineData(1, "PUT", 200, 1)]
    [InlineData(2, "PUT", 412, 2)]
    [InlineData(0, "DELETE", 204, 0)]
    [InlineData(1, "DELETE", 204, 0)]
    [InlineData(2, "DELETE", 412, 2)]
    public async Task AConditionalWrite_IsAnsweredAsThePageSays(int matches, string method, int status, int standing)
    {
        for (var i = 0; i < matches; i++)
        {
            await world.Post("Flag", Some.Flag("k"));
        }

        const string Criteria = "identifier=urn:demo:key|k";
        var answer = method == "POST"
            ? await world.Post("Flag", Some.Flag("k"), ("If-None-Exist", Criteria))
            : await world.Send(new HttpMethod(method), "Flag?" + Criteria, method == "PUT" ? Some.Flag("k") : null);

        Assert.Equal(status, (int)answer.Status);
        Assert.Equal(standing, (await world.Get("Flag?" + Criteria)).Total);
    }

    private async Task<string> StandingAsync(string id)
    {
        var answer = await world.Get($"Patient/{id}");
        return $"{(int)answer.Status} {((int)answer.Status == 200 ? answer.Version : "none")}";
    }
}
