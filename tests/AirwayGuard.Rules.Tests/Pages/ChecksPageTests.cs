namespace AirwayGuard.Rules.Tests.Pages;

public sealed class ChecksPageTests
{
    [Fact]
    public void The_page_of_checks_reads_as_the_shipped_rule_sets()
    {
        var path = Path.Combine(Repository.Root(), ChecksPage.File);
        var written = ChecksPage.Write();
        if (Environment.GetEnvironmentVariable(ChecksPage.Switch) == "1")
        {
            File.WriteAllText(path, written);
        }

        Assert.Equal(written, File.ReadAllText(path));
    }
}
