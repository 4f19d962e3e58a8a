using System.Text;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

public sealed class CheckDocumentsTests : IDisposable
{
    private const string Found = "vacuum-above-ceiling Observation/high open";

    private readonly GivenFolder _folder = new();

    public static TheoryData<string, byte[], string> Broken => new()
    {
        { "random.json", Enumerable.Range(0, 4096).Select(i => (byte)(i * 31 % 251)).ToArray(), "AG2003 random.json" },
        { "empty.json", [], "AG2003 empty.json" },
        { "blank.ndjson", "\n\n"u8.ToArray(), "AG2003 blank.ndjson" },
        { "cut.json", Encoding.UTF8.GetBytes(Given.HighVacuum[..200]), "AG2003 cut.json" },
        { "wide.json", Encoding.Unicode.GetPreamble().Concat(Encoding.Unicode.GetBytes(Given.HighVacuum)).ToArray(), "AG2003 wide.json" },
        { "deep.json", Encoding.UTF8.GetBytes("""{"resourceType":"Observation","a":""" + new string('[', 10_000) + new string(']', 10_000) + "}"), "AG2007 deep.json" },
        { "number.json", Encoding.UTF8.GetBytes(Given.Vacuum("n", "NaN")), "AG2003 number.json" },
        { "list.json", "[]"u8.ToArray(), "AG2008 list.json" },
        { "nameless.json", """{"id":"x"}"""u8.ToArray(), "AG2008 nameless.json" },
        { "type.json", """{"resourceType":"Telepathy","id":"x"}"""u8.ToArray(), "AG2004 type.json" },
        { "numbered.json", """{"resourceType":7}"""u8.ToArray(), "AG2008 numbered.json" },
        { "bytes.json", [.. "{\"resourceType\":\"Observation\",\"id\":\""u8, 0xFF, 0xFE, .. "\"}"u8], "AG2003 bytes.json" },
    };

    public void Dispose() => _folder.Dispose();

    [Theory]
    [MemberData(nameof(Broken))]
    public async Task ABrokenFileIsNamedWithItsCodeAndTheRestIsJudged(string name, byte[] bytes, string problem)
    {
        var answer = await CheckAnswer.OfAsync(_folder.File(name, bytes), Good());

        Assert.Equal(2, answer.Exit);
        Assert.Equal([Found], answer.Findings);
        Assert.Equal([problem], answer.Problems);
    }

    [Theory]
    [InlineData("rows.ndjson", "\n", "")]
    [InlineData("rows.json", "\n", "")]
    [InlineData("rows.ndjson", "\r\n", "")]
    [InlineData("rows.ndjson", "\n", "\uFEFF")]
    [InlineData("rows.ndjson", "\n\n\n", "\uFEFF")]
    public async Task LinesAreReadWithAnyLineEndAndMark(string name, string lineEnd, string mark)
    {
        var answer = await CheckAnswer.OfAsync(_folder.File(name, Encoding.UTF8.GetBytes(mark + Given.Adult + lineEnd + Given.HighVacuum + lineEnd)));

        Assert.Equal(1, answer.Exit);
        Assert.Equal([Found], answer.Findings);
        Assert.Empty(answer.Problems);
    }

    [Fact]
    public async Task ATornLineIsNamedAndTheLinesAroundItAreJudged()
    {
        var answer = await CheckAnswer.OfAsync(_folder.File("rows.ndjson", Given.Adult, Given.Vacuum("torn", "300")[..150], Given.HighVacuum));

        Assert.Equal(2, answer.Exit);
        Assert.Equal([Found], answer.Findings);
        Assert.Equal(["AG2003 rows.ndjson:2"], answer.Problems);
    }

    [Fact]
    public async Task BytesAfterAResourceAreNamedAndTheResourceIsJudged()
    {
        var answer = await CheckAnswer.OfAsync(_folder.File("a.json", Given.Adult), _folder.File("b.json", Given.HighVacuum, "trailing"));

        Assert.Equal(2, answer.Exit);
        Assert.Equal([Found], answer.Findings);
        Assert.Equal(["AG2003 b.json:2"], answer.Problems);
    }

    [Fact]
    public async Task EntriesThatCannotBeReadAreNamedByTheirNumberInTheirOrder()
    {
        var bundle = Given.Bundle(
            "collection", Given.Entry(Given.Adult), Given.Entry(Given.Bundle("collection", Given.Entry(Given.Vacuum("inner", "300")))), "{}",
            Given.Entry("""{"resourceType":"Telepathy"}"""), Given.Entry(Given.HighVacuum), "7");

        var answer = await CheckAnswer.OfAsync(_folder.File("b.json", bundle));

        Assert.Equal(2, answer.Exit);
        Assert.Equal([Found], answer.Findings);
        Assert.Equal(["AG2301 b.json#entry 2", "AG2302 b.json#entry 3", "AG2004 b.json#entry 4", "AG2302 b.json#entry 6"], answer.Problems);
    }

    [Fact]
    public async Task ADeletedResourceIsNotChartedAndWhatRestedOnItIsWithdrawn()
    {
        var bundle = Given.Bundle(
            "transaction", Given.Entry(Given.Adult), Given.Entry(Given.HighVacuum), Given.Entry(Given.Vacuum("other", "160")),
            """{"request":{"method":"DELETE","url":"Observation/high"}}""");

        var answer = await CheckAnswer.OfAsync(_folder.File("b.json", bundle));

        Assert.Equal(1, answer.Exit);
        Assert.Contains(answer.Findings, one => one == "vacuum-above-ceiling Observation/other open");
        Assert.DoesNotContain(answer.Findings, one => one == Found);
    }

    [Fact]
    public async Task WithdrawnFindingsAloneLeaveTheExitAtZero()
    {
        var bundle = Given.Bundle("transaction", Given.Entry(Given.Adult), Given.Entry(Given.HighVacuum), """{"request":{"method":"DELETE","url":"Observation/high"}}""");

        var answer = await CheckAnswer.OfAsync(_folder.File("b.json", bundle));

        Assert.Equal(0, answer.Exit);
        Assert.Equal(["vacuum-above-ceiling Observation/high withdrawn"], answer.Findings);
    }

    [Fact]
    public async Task ProblemsStandInTheOrderOfFilesAndLinesWhateverTheirKind()
    {
        var first = _folder.File("a.ndjson", Given.Adult, Given.Vacuum("eie", "300", status: "entered-in-error"), "torn", Given.Vacuum("late", "300", at: "2026-03-01"));
        var second = _folder.File("b.ndjson", "torn", Given.Vacuum("word", "\"x\""));

        var answer = await CheckAnswer.OfAsync(second, first);

        Assert.Equal(
            ["AG2108 Observation/eie", "AG2003 a.ndjson:3", "AG2006 Observation/late", "AG2003 b.ndjson:1", "AG2101 Observation/word"], answer.Problems);
    }

    [Fact]
    public async Task ABundleOfFiftyMegabytesIsReadEntryByEntry()
    {
        var path = _folder.Of("large.json");
        WriteLarge(path);
        Assert.True(new FileInfo(path).Length > 50_000_000);

        var answer = await CheckAnswer.OfAsync(path);

        Assert.Equal(1, answer.Exit);
        Assert.Equal([Found], answer.Findings);
        Assert.Empty(answer.Problems);
    }

    // Most of it is resources that are of no use here, so that its size and not its judging is what is met.
    private static void WriteLarge(string path)
    {
        using var text = new StreamWriter(path);
        text.Write($$"""{"resourceType":"Bundle","type":"collection","entry":[{{Given.Entry(Given.Adult)}},{{Given.Entry(Given.HighVacuum)}}""");
        var data = new string('A', 500_000);
        for (var i = 0; i < 104; i++)
        {
            text.Write($$$""",{"resource":{"resourceType":"Binary","id":"b{{{i}}}","contentType":"image/png","data":"{{{data}}}"}}""");
        }

        text.Write("]}");
    }

    private string Good() => _folder.File("good.ndjson", Given.Adult, Given.HighVacuum);
}
