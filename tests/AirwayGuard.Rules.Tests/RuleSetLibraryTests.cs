namespace AirwayGuard.Rules.Tests;

public sealed class RuleSetLibraryTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("rule-sets-");

    public void Dispose() => _folder.Delete(recursive: true);

    private string Save(string name, string document)
    {
        var path = Path.Combine(_folder.FullName, name);
        File.WriteAllText(path, document);
        return path;
    }

    [Fact]
    public void A_shipped_name_is_resolved_without_a_file() =>
        Assert.Equal("guideline-2022", RuleSetLibrary.Resolve("guideline-2022").RuleSet!.Name);

    [Fact]
    public void A_path_is_read_and_its_faults_carry_it()
    {
        Assert.Equal("ward-7", RuleSetLibrary.Resolve(Save("ward.yaml", Documents.Valid)).RuleSet!.Name);

        var wrong = Save("wrong.yaml", Documents.With("schema: 1", "schema: 3"));
        Assert.Equal(wrong, Assert.Single(RuleSetLibrary.Resolve(wrong).Faults).File);
    }

    [Fact]
    public void A_name_that_is_neither_is_not_found_and_a_near_one_is_suggested()
    {
        var reading = RuleSetLibrary.Resolve("strict-range");

        var fault = Assert.Single(reading.Faults);
        Assert.False(reading.Opened);
        Assert.Equal(("AG3001", 0, 0), (fault.Code.Id, fault.Line, fault.Column));
        Assert.Contains("Did you mean strict-ranges?", fault.What, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_cannot_be_opened()
    {
        var reading = RuleSetLibrary.Resolve(_folder.FullName);

        Assert.False(reading.Opened);
        Assert.Equal("AG3002", Assert.Single(reading.Faults).Code.Id);
    }

    [Fact]
    public void A_file_beyond_the_limit_is_read_no_further_than_needed_to_refuse_it()
    {
        var path = Path.Combine(_folder.FullName, "large.yaml");
        using (var file = File.Create(path))
        {
            file.SetLength(1L << 31);
        }

        var reading = RuleSetLibrary.Resolve(path);

        Assert.True(reading.Opened);
        Assert.Equal("AG3003", Assert.Single(reading.Faults).Code.Id);
    }
}
