using System.Net;
using Xunit;

namespace AirwayGuard.Sandbox.Tests;

public sealed class RestartTests : IDisposable
{
    private readonly World world = new();

    public void Dispose() => world.Dispose();

    [Fact]
    public async Task Everything_is_there_after_a_restart()
    {
        await world.Put("Patient/p1", Some.Patient("p1", mrn: "1"));
        await world.Put("Patient/p1", Some.Patient("p1", mrn: "1", family: "Neu"));
        var flag = await world.Post("Flag", Some.Flag("k1"));
        await world.Put("Patient/gone", Some.Patient("gone"));
        await world.Delete("Patient/gone");

        world.Restart();

        Assert.Contains("Neu", (await world.Get("Patient/p1")).Text, StringComparison.Ordinal);
        Assert.Equal(2, (await world.Get("Patient/p1/_history")).Total);
        Assert.Equal(HttpStatusCode.Gone, (await world.Get("Patient/gone")).Status);
        Assert.Equal(1, (await world.Get("Patient?identifier=urn:demo:mrn|1")).Total);
        var again = await world.Post("Flag", Some.Flag("k1"), ("If-None-Exist", "identifier=urn:demo:key|k1"));
        Assert.Equal((HttpStatusCode.OK, flag.Id), (again.Status, again.Id));
        var another = await world.Post("Flag", Some.Flag("k2"));
        Assert.Equal((HttpStatusCode.Created, false), (another.Status, another.Id == flag.Id));
    }

    [Fact]
    public async Task Time_does_not_run_backwards_over_a_restart()
    {
        world.Clock.Advance(TimeSpan.FromHours(1));
        await world.Post("Patient", Some.Patient());

        world.Clock.Advance(TimeSpan.FromHours(-1));
        world.Restart();
        var later = await world.Post("Patient", Some.Patient());

        Assert.Equal("2026-03-01T09:00:00.000Z", (string?)later.Json["meta"]!["lastUpdated"]);
    }

    [Fact]
    public async Task A_new_id_never_meets_one_a_client_chose_or_one_deleted()
    {
        await world.Put("Patient/1", Some.Patient("1"));
        await world.Put("Patient/2", Some.Patient("2"));
        await world.Delete("Patient/2");

        var ids = new[] { (await world.Post("Patient", Some.Patient())).Id, (await world.Post("Patient", Some.Patient())).Id };

        Assert.All(ids, id => Assert.False(id is null or "1" or "2"));
        Assert.False(ids[0] == ids[1]);
    }
}
