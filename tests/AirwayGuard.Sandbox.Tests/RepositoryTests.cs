using System.Text;
using Xunit;

namespace AirwayGuard.Sandbox.Tests;

public sealed class RepositoryTests : IDisposable
{
    private readonly World world = new();

    public void Dispose() => world.Dispose();

    [Fact]
    public void The_repository_works_without_http()
    {
        var repository = world.Repository;

        var made = repository.Create(Bytes(Some.Flag("k1")), "identifier=urn:demo:key|k1");
        var found = repository.Create(Bytes(Some.Flag("k1")), "identifier=urn:demo:key|k1");
        var patient = repository.Update("Patient", "p1", Bytes(Some.Patient("p1")));

        Assert.Equal((true, true), (made.Created, made.Written));
        Assert.Equal((false, false, made.Version.Id), (found.Created, found.Written, found.Version.Id));
        Assert.Equal(("p1", 1, "PUT"), (patient.Version.Id, patient.Version.VersionId, patient.Version.Method));
        Assert.Equal(made.Version.Id, Assert.Single(repository.Search("Flag", "patient=p1")).Id);
        Assert.Equal(2, repository.History().Count);
        Assert.True(repository.Delete("Patient", "p1")!.IsDeletion);
        Assert.Null(repository.Delete("Patient", "p1"));
        Assert.True(repository.Read("Patient", "p1")!.IsDeletion);
        Assert.False(repository.Read("Patient", "p1", 1)!.Body.IsEmpty);
        Assert.Null(repository.Read("Patient", "p2"));
    }

    [Theory]
    [InlineData("bad id")]
    [InlineData("")]
    [InlineData("12345678901234567890123456789012345678901234567890123456789012345")]
    public void An_id_that_R4_does_not_allow_is_refused(string id)
    {
        using var lenient = new World(options => options.Validation = SandboxValidation.Lenient);

        var refusal = Assert.Throws<SandboxRefusalException>(() => lenient.Repository.Update("Patient", id, Bytes(Some.Patient(id))));

        Assert.Equal(400, refusal.Status);
    }

    [Fact]
    public void A_version_does_not_print_its_content()
    {
        var version = world.Repository.Create(Bytes(Some.Patient(family: "Geheim"))).Version;

        Assert.DoesNotContain("Geheim", version.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_folder_nothing_is_opened()
    {
        Assert.Throws<ArgumentException>(() => new SandboxRepository(new SandboxOptions(), world.Clock));
    }

    [Fact]
    public void Readers_see_a_transaction_whole_or_not_at_all()
    {
        var writer = Task.Run(async () =>
        {
            for (var i = 0; i < 20; i++)
            {
                await world.Post("", Some.Bundle("transaction",
                    Some.Entry("PUT", $"Patient/a{i}", Some.Patient($"a{i}")), Some.Entry("PUT", $"Patient/b{i}", Some.Patient($"b{i}"))));
            }
        }, TestContext.Current.CancellationToken);

        var counts = new List<int>();
        while (!writer.IsCompleted)
        {
            counts.Add(world.Repository.Search("Patient", "").Count);
        }

        Assert.All(counts, count => Assert.Equal(0, count % 2));
        Assert.Equal(40, world.Repository.Search("Patient", "").Count);
    }

    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);
}
