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

    [Theory]
    [InlineData("newer", "The server's database has schema 999, this program knows ")]
    [InlineData("damaged", "The server's database cannot be opened (SQLite 26).")]
    [InlineData("file", "The server's folder cannot be made.")]
    public void A_folder_that_cannot_be_used_is_told_without_its_path(string kind, string said)
    {
        var path = Directory.CreateDirectory(Path.Combine(world.Folder, "other")).FullName;
        var file = Path.Combine(path, "sandbox.db");
        if (kind == "newer")
        {
            new SandboxRepository(new SandboxOptions { Folder = path }, world.Clock).Dispose();
            using var database = new Microsoft.Data.Sqlite.SqliteConnection($"Data Source={file};Pooling=False");
            database.Open();
            using var set = database.CreateCommand();
            set.CommandText = "PRAGMA user_version=999";
            set.ExecuteNonQuery();
        }
        else
        {
            File.WriteAllText(file, new string('x', 5000));
        }

        var refused = Assert.Throws<SandboxFolderException>(() => new SandboxRepository(new SandboxOptions { Folder = kind == "file" ? file : path }, world.Clock));

        Assert.StartsWith(said, refused.Message, StringComparison.Ordinal);
        Assert.DoesNotContain(world.Folder, refused.Message, StringComparison.Ordinal);
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
