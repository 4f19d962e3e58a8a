namespace AirwayGuard.Conventions.Tests.Layout;

/// <summary>A file is read in one go.</summary>
public class FileSizeTests
{
    private const int Most = 400;

    [Fact]
    public void NoSourceFile_IsLongerThan400Lines()
    {
        var sources = Repository.CSharp("src", "tests").ToList();
        Assert.NotEmpty(sources);
        Rule.Holds(
            $"Longer than {Most} lines; split by concern:",
            sources.Select(file => (file, lines: Repository.Read(file).AsSpan().TrimEnd().Count('\n') + 1)).Where(it => it.lines > Most).Select(it => $"{it.file}: {it.lines}"));
    }
}
