namespace AirwayGuard.Conventions.Tests.Sources;

/// <summary>The rules about code are only as good as what they take for code.</summary>
public class CodeTextTests
{
    [Theory]
    [InlineData("a(); // Now", "Now")]
    [InlineData("a(/* Now */);", "Now")]
    [InlineData("a(\"Now\");", "Now")]
    [InlineData("a(\"\\\"Now\");", "Now")]
    [InlineData("a(@\"\\\", \"Now\");", "Now")]
    [InlineData("a(\"\"\"x \"Now\" x\"\"\");", "Now")]
    [InlineData("a('\\'', \"Now\");", "Now")]
    [InlineData("a($\"{b} Now {{Now}}\");", "Now")]
    public void WordsInCommentsAndLiterals_AreNotCode(string text, string word) =>
        Assert.DoesNotContain(word, CodeText.Of(text), StringComparison.Ordinal);

    [Theory]
    [InlineData("a(\"x\"); Now();")]
    [InlineData("a($\"{Now}\");")]
    [InlineData("a($\"{b(\"c\")} x\", Now);")]
    [InlineData("a($$\"\"\"{x} {{Now}}\"\"\");")]
    [InlineData("a(@\"c:\\\", Now);")]
    [InlineData("a('\"', Now, '\"');")]
    [InlineData("a(\"\", Now);")]
    [InlineData("/* x */ Now(); // x")]
    public void CodeBesideThem_AndInTheHolesOfATemplate_IsCode(string text) =>
        Assert.Contains("Now", CodeText.Of(text), StringComparison.Ordinal);

    [Fact]
    public void EveryLineStaysWhereItWas() =>
        Assert.Equal("a    \n     \n b   ", CodeText.Of("a /*x\n  y*/\n b//z"));
}
