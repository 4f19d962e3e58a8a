using AirwayGuard.Host.Service.CdsHooks;
using AirwayGuard.Host.Tests.Commands;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace AirwayGuard.Host.Tests.Service.CdsHooks;

/// <summary>Keys from a file: what is written counts from the next call on.</summary>
public sealed class FileKeysTests : IDisposable
{
    private readonly GivenFolder _folder = new();
    private readonly FileKeys _keys;

    public FileKeysTests() => _keys = new FileKeys(_folder.Of("keys.json"), new FakeTimeProvider(GivenCheck.Now));

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void AFileWrittenAnew_IsReadAgain_AndOneThatWasNotIsLeft()
    {
        Write(SigningKey.Set(SigningKey.First.Jwk()), 1);
        Assert.Single(Find("first").Keys);

        Write(SigningKey.Set(SigningKey.Second.Jwk(("kid", "third"))), 1);
        Assert.Single(Find("first").Keys);
        Write(SigningKey.Set(SigningKey.Second.Jwk(("kid", "third"))), 2);
        Assert.Empty(Find("first").Keys);
        Assert.Single(Find("third").Keys);
    }

    [Fact]
    public void AFileThatIsGoneOrUnreadable_LeavesNoKey_UntilItIsThereAgain()
    {
        Assert.False(Find("first").IsRead);
        Write(SigningKey.Set(SigningKey.First.Jwk()), 1);
        Assert.Single(Find("first").Keys);
        File.Delete(_folder.Of("keys.json"));
        Assert.False(Find("first").IsRead);
        Write("{", 1);
        Assert.False(Find("first").IsRead);
        Write(SigningKey.Set(SigningKey.First.Jwk()).PadRight(65_537), 1);
        Assert.False(Find("first").IsRead);

        Write(SigningKey.Set(SigningKey.First.Jwk()).PadRight(65_536), 1);
        Assert.Single(Find("first").Keys);
    }

    // Mounted secrets are links whose target is exchanged; the link itself keeps its time and its length.
    [Fact]
    public void AFileThatIsALink_IsReadAgain_WhenItsTargetIsWrittenAnewOrExchanged()
    {
        Write("one/keys.json", SigningKey.Set(SigningKey.First.Jwk()), 1);
        Write("two/keys.json", SigningKey.Set(SigningKey.Second.Jwk()), 2);
        Directory.CreateSymbolicLink(_folder.Of("now"), _folder.Of("one"));
        File.CreateSymbolicLink(_folder.Of("keys.json"), Path.Combine("now", "keys.json"));
        Assert.Single(Find("first").Keys);

        Directory.Delete(_folder.Of("now"));
        Directory.CreateSymbolicLink(_folder.Of("now"), _folder.Of("two"));
        Assert.Empty(Find("first").Keys);
        Assert.Single(Find("second").Keys);

        Write("two/keys.json", SigningKey.Set(SigningKey.First.Jwk()), 3);
        Assert.Empty(Find("second").Keys);
        Assert.Single(Find("first").Keys);
    }

    [Fact]
    public void APipe_IsNotOpened()
    {
        Pipes.Make(_folder.Of("keys.json"));

        Assert.False(Find("first").IsRead);
    }

    private KeyAnswer Find(string kid) => _keys.Find(kid, "ES384");

    // The two sets of the first test are equally long, so that the time alone tells them apart.
    private void Write(string text, int minute) => Write("keys.json", text, minute);

    private void Write(string name, string text, int minute)
    {
        _folder.File(name, System.Text.Encoding.UTF8.GetBytes(text));
        File.SetLastWriteTimeUtc(_folder.Of(name), GivenCheck.Now.UtcDateTime.AddMinutes(minute));
    }
}
