using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.SignOffs;
using AirwayGuard.Worker.SignOffs;
using Xunit;

namespace AirwayGuard.Worker.Tests.SignOffs;

public sealed class SignOffMailTests : IDisposable
{
    private readonly string _data = Directory.CreateTempSubdirectory("airwayguard-").FullName;

    private SignOffMail Mail => SignOffMail.In(_data);

    private string Folder => Path.Combine(_data, "sign-offs");

    public void Dispose() => Directory.Delete(_data, recursive: true);

    private static readonly SignOffRequest Request = new(SignOffAct.Promote, "schema: 1"u8.ToArray(), "site.yaml", ["pass-too-long"], ["Location/icu"], "A. Example", "why");

    [Fact]
    public void A_request_comes_as_it_was_posted_and_its_answer_goes_back_once()
    {
        var id = Mail.Post(Request);

        var (waiting, request) = Assert.Single(Mail.Waiting());
        Assert.Equal(id, waiting);
        Assert.Equal((Request.Act, "site.yaml", "A. Example", "why"), (request!.Act, request.File, request.By, request.Reason));
        Assert.Equal(Request.Document.ToArray(), request.Document.ToArray());
        Assert.Equal([.. Request.Checks, .. Request.Units], [.. request.Checks, .. request.Units], StringComparer.Ordinal);
        Assert.Null(Mail.Take(id));
        Mail.Send(id, SignOffAnswer.Refused(Codes.SignOffNothing, "rules restore", "none"));

        Assert.Empty(Mail.Waiting());
        Assert.Equal(new Problem(Codes.SignOffNothing, "rules restore", "none"), Mail.Take(id)!.Problem);
        Assert.Null(Mail.Take(id));
        Assert.Empty(Directory.EnumerateFiles(Folder));
    }

    [Fact]
    public void A_request_taken_back_is_gone_and_one_that_was_taken_cannot_be()
    {
        var id = Mail.Post(Request);
        Assert.True(Mail.TakeBack(id));
        Assert.Empty(Mail.Waiting());
        Assert.False(Mail.TakeBack(id));
    }

    [Theory]
    [InlineData("")]
    [InlineData("null")]
    [InlineData("{}")]
    [InlineData("[1]")]
    [InlineData("{\"Act\":\"Withdraw\",\"Document\":\"\",\"File\":\"\",\"Checks\":[],\"Units\":[],\"By\":null,\"Reason\":\"x\"}")]
    [InlineData("{\"Act\":\"Withdraw\",\"Document\":\"\",\"File\":\"\",\"Checks\":[null],\"Units\":[],\"By\":\"a\",\"Reason\":\"x\"}")]
    [InlineData("{\"Act\":7,\"Document\":\"\",\"File\":\"\",\"Checks\":[],\"Units\":[],\"By\":\"a\",\"Reason\":\"x\"}")]
    [InlineData("{\"Act\":\"Promote\",\"Document\":\"not base64!\",\"File\":\"a\",\"Checks\":[],\"Units\":[],\"By\":\"a\",\"Reason\":\"b\"}")]
    [InlineData("{\"Act\":\"Delete\",\"Document\":\"\",\"File\":\"a\",\"Checks\":[],\"Units\":[],\"By\":\"a\",\"Reason\":\"b\"}")]
    public void What_is_no_request_is_told_as_one_that_cannot_be_read(string text)
    {
        Directory.CreateDirectory(Folder);
        File.WriteAllText(Path.Combine(Folder, "x.request"), text);

        Assert.Equal(("x", null), Assert.Single(Mail.Waiting()));
    }

    [Fact]
    public void Only_its_own_account_may_look_into_the_folder()
    {
        Mail.Post(Request);

        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute, File.GetUnixFileMode(Folder));
        }
    }
}
