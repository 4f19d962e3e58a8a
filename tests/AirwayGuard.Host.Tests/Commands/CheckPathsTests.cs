using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

public sealed class CheckPathsTests : IDisposable
{
    private const string Found = "vacuum-above-ceiling Observation/high open";

    private readonly GivenFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task AMissingPathIsNamedAndTheOtherPathsAreJudged()
    {
        var answer = await CheckAnswer.OfAsync(_folder.Of("missing.json"), Good());

        Assert.Equal(2, answer.Exit);
        Assert.Equal([Found], answer.Findings);
        Assert.Equal(["AG2001 missing.json"], answer.Problems);
        Assert.Empty(answer.Stderr);
    }

    [Fact]
    public async Task AnEmptyFolderAndOneWithOtherFilesHoldNothingToRead()
    {
        Directory.CreateDirectory(_folder.Of("empty"));
        _folder.File("other/notes.txt", Given.HighVacuum);

        var answer = await CheckAnswer.OfAsync(_folder.Of("empty") + "/", _folder.Of("other"));

        Assert.Equal(2, answer.Exit);
        Assert.Equal(["AG2010 empty", "AG2010 other"], answer.Problems);
    }

    [Theory]
    [InlineData("nothing.json", "", "AG2003  nothing.json: There is nothing in it. ")]
    [InlineData("nothing.ndjson", "", "AG2003  nothing.ndjson: There is nothing in it. ")]
    [InlineData("rows.xml", "<Bundle/>", "AG2003  rows.xml: It begins as XML does, and only FHIR JSON is read. ")]
    [InlineData("torn.json", "{", "AG2003  torn.json: The bytes are not well-formed JSON. ")]
    public async Task WhatHoldsNoJsonIsToldApart(string name, string content, string said)
    {
        var (exit, stdout, _) = await Scenarios.InProcessCheck.RunAsync(["check", Bytes(name, content)]);

        Assert.Equal(2, exit);
        Assert.Contains(said, stdout, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AResourceNestedTooDeepIsSaidToBeSo()
    {
        var deep = string.Concat(Enumerable.Repeat("{\"a\":", 70)) + "1" + new string('}', 70);

        var (_, stdout, _) = await Scenarios.InProcessCheck.RunAsync(["check", Bytes("deep.json", deep)]);

        Assert.Contains("AG2007  deep.json: The resource has more bytes, or more levels, than are read. ", stdout, StringComparison.Ordinal);
    }

    [Fact]
    public async Task APipeIsRefusedWithoutWaitingForItsWriter()
    {
        Pipes.Make(_folder.Of("pipe.json"));

        var answer = await CheckAnswer.OfAsync(_folder.Of("pipe.json"), Good());

        Assert.Equal(2, answer.Exit);
        Assert.Equal([Found], answer.Findings);
        Assert.Equal(["AG2002 pipe.json"], answer.Problems);
    }

    [Theory]
    [InlineData("/dev/zero", "AG2002 zero")]
    [InlineData("/dev/null", "AG2002 null")]
    public async Task ADeviceIsRefused(string path, string problem)
    {
        var answer = await CheckAnswer.OfAsync(path);

        Assert.Equal(2, answer.Exit);
        Assert.Equal([problem], answer.Problems);
    }

    [Fact]
    public async Task AFolderIsReadWithItsFoldersAndNoLinkIsFollowedOutOfIt()
    {
        var outside = Good();
        _folder.File("given/a.ndjson", Given.Adult);
        _folder.File("given/deep/er/b.json", Given.HighVacuum);
        _folder.File("given/readme.txt", "not FHIR");
        _folder.File("outside/c.json", Given.Vacuum("stolen", "300"));
        File.CreateSymbolicLink(_folder.Of("given/out.json"), outside);
        File.CreateSymbolicLink(_folder.Of("given/gone.json"), _folder.Of("nowhere"));
        File.CreateSymbolicLink(_folder.Of("given/behind.json"), "deep/away/c.json");
        Directory.CreateSymbolicLink(_folder.Of("given/deep/away"), _folder.Of("outside"));
        Pipes.Make(_folder.Of("given/pipe.json"));

        var answer = await CheckAnswer.OfAsync(_folder.Of("given"));

        Assert.Equal(2, answer.Exit);
        Assert.Equal([Found], answer.Findings);
        Assert.Equal(["AG2002 behind.json", "AG2002 deep/away", "AG2002 gone.json", "AG2002 out.json", "AG2002 pipe.json"], answer.Problems);
    }

    [Fact]
    public async Task ALinkThatStaysInTheFolderIsNoProblemAndNoLoop()
    {
        _folder.File("given/a.ndjson", Given.Adult, Given.HighVacuum);
        Directory.CreateSymbolicLink(_folder.Of("given/again"), _folder.Of("given"));
        Directory.CreateSymbolicLink(_folder.Of("given-too"), _folder.Of("given"));

        var direct = await CheckAnswer.OfAsync(_folder.Of("given"));
        var linked = await CheckAnswer.OfAsync(_folder.Of("given-too"));

        Assert.Equal(1, direct.Exit);
        Assert.Equal([Found], direct.Findings);
        Assert.Empty(direct.Problems);
        Assert.Equal(direct.Stdout, linked.Stdout);
    }

    [Fact]
    public async Task FilesDeeperThanTwentyFoldersAreRead()
    {
        _folder.File(string.Join('/', Enumerable.Repeat("d", 25)) + "/rows.ndjson", Given.Adult, Given.HighVacuum);

        Assert.Equal([Found], (await CheckAnswer.OfAsync(_folder.Path)).Findings);
    }

    [Fact]
    public async Task AFileThatCannotBeOpenedIsNamedAndTheRestIsJudged()
    {
        // Held with no sharing: opening it fails for every account, the administrator's too.
        var held = _folder.File("held.json", Given.HighVacuum);
        await using var hold = new FileStream(held, FileMode.Open, FileAccess.ReadWrite, FileShare.None);

        var answer = await CheckAnswer.OfAsync(held, Good());

        Assert.Equal(2, answer.Exit);
        Assert.Equal([Found], answer.Findings);
        Assert.Equal(["AG2002 held.json"], answer.Problems);
    }

    [Fact]
    public async Task NoProblemSaysWhereOnThisMachineAFileLies()
    {
        var answer = await CheckAnswer.OfAsync(_folder.Of("missing.json"), _folder.File("torn.json", "{"), _folder.Path);

        Assert.DoesNotContain(_folder.Path, answer.Stdout, StringComparison.Ordinal);
    }

    private string Bytes(string name, string content)
    {
        File.WriteAllText(_folder.Of(name), content);
        return _folder.Of(name);
    }

    private string Good() => _folder.File("good.ndjson", Given.Adult, Given.HighVacuum);
}
