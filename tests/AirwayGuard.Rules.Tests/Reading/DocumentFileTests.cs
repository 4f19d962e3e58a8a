using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Tests.Reading;

public sealed class DocumentFileTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("airwayguard-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string Written(string text)
    {
        var path = Path.Combine(_folder, "site.yaml");
        File.WriteAllText(path, text);
        return path;
    }

    [Fact]
    public void A_file_that_stays_as_it_is_is_read_whole()
    {
        var (bytes, fault) = DocumentFile.Read(Written("schema: 1"));

        Assert.Null(fault);
        Assert.Equal("schema: 1"u8.ToArray(), bytes.ToArray());
    }

    [Fact]
    public void A_file_that_grows_while_it_is_read_is_not_used()
    {
        var path = Written("schema: 1");

        Assert.Equal(Codes.RuleSetChanging, DocumentFile.Read(path, () => File.AppendAllText(path, "\nname: a")).Fault);
    }

    [Fact]
    public void A_file_that_is_written_anew_while_it_is_read_is_not_used()
    {
        var path = Written("schema: 1");

        Assert.Equal(Codes.RuleSetChanging, DocumentFile.Read(path, () => File.SetLastWriteTimeUtc(path, new DateTime(2026, 1, 1, 0, 0, 0, DateTimeKind.Utc))).Fault);
    }
}
