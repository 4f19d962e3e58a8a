using System.Globalization;
using System.Net;
using System.Net.Sockets;
using AirwayGuard.Host.Commands;
using AirwayGuard.Host.Tests.Commands;
using AirwayGuard.Storage;
using AirwayGuard.TestKit.Ledger;
using Xunit;

namespace AirwayGuard.Host.Tests.Service;

public sealed class ServeCommandTests
{
    [Theory]
    [InlineData("--frob", "AG1011  --frob: ")]
    [InlineData("--url http://127.0.0.1:1", "AG1011  --url: ")]
    [InlineData("--urls", "AG1001  --urls: ")]
    [InlineData("--urls --AirwayGuard:Mode=live", "AG1001  --urls: ")]
    [InlineData("--AirwayGuard:Mode=live serve", "AG1011  argument 2: ")]
    [InlineData("--AirwayGuard:Mode=live --airwayguard:mode silent", "AG1021  --airwayguard:mode: ")]
    [InlineData("--urls http://127.0.0.1:0 --urls=http://127.0.0.1:1", "AG1021  --urls: ")]
    [InlineData("--AirwayGuard:Mode=loud", "AG1001  AirwayGuard:Mode: ")]
    [InlineData("--AirwayGuard:Moode live", "AG1011  AirwayGuard:Moode: ")]
    [InlineData("--urls http://0.0.0.0:8480", "AG1002  --urls: ")]
    [InlineData("--AirwayGuard:Fhir:BaseUrl=https://ehr.example.org/fhir", "AG1001  AirwayGuard:DataDirectory: ")]
    public async Task AWrongOption_IsOneLineWithACode_AndExit64(string arguments, string line)
    {
        var (exit, output, errors) = await RunAsync(arguments.Split(' '));

        Assert.Equal(64, exit);
        Assert.Empty(output);
        Assert.StartsWith(line, Assert.Single(errors.Split('\n', StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task ASecondProcessOnTheSameFolder_EndsWithOneClearLine()
    {
        using var folder = new GivenFolder();
        await using var first = await SqliteLedger.OpenAsync(folder.Of("ledger"), new SqliteLedgerOptions(), new SetClock(Charted.Morning));

        var (exit, output, errors) = await RunAsync(Silent(folder.Path));

        Assert.Equal(1, exit);
        Assert.Empty(output);
        Assert.StartsWith("AG1601  ", Assert.Single(errors.Split('\n', StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task AnAddressInUse_EndsWithOneClearLine()
    {
        using var folder = new GivenFolder();
        using var taken = new TcpListener(IPAddress.Loopback, 0);
        taken.Start();
        var port = ((IPEndPoint)taken.LocalEndpoint).Port.ToString(CultureInfo.InvariantCulture);

        var (exit, _, errors) = await RunAsync([.. Silent(folder.Path).Skip(1), $"--urls=http://127.0.0.1:{port}"]);

        Assert.Equal(1, exit);
        Assert.StartsWith("AG1003  ", Assert.Single(errors.Split('\n', StringSplitOptions.RemoveEmptyEntries), line => !line.Contains(" Audit anchor: ", StringComparison.Ordinal)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task ADemoWhoseServersDatabaseIsDamaged_EndsWithOneClearLine()
    {
        using var folder = new GivenFolder();
        folder.File("sandbox/sandbox.db", "this is no database, but a text that is longer than the header of one would be, if it were");

        var (exit, output, errors) = await RunAsync(["--urls=http://127.0.0.1:0", "--AirwayGuard:DataDirectory", folder.Path]);

        Assert.Equal(1, exit);
        Assert.Empty(output);
        Assert.StartsWith("AG1019  AirwayGuard:DataDirectory: ", Assert.Single(errors.Split('\n', StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
        Assert.DoesNotContain(folder.Path, errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ALedgerOfAnotherServer_IsRefused()
    {
        using var folder = new GivenFolder();
        await using (var ledger = await SqliteLedger.OpenAsync(folder.Of("ledger"), new SqliteLedgerOptions(), new SetClock(Charted.Morning)))
        {
            Assert.Null(await ledger.BindAsync("https://ehr.example.org/fhir", "https://ehr.example.org/fhir", TestContext.Current.CancellationToken));
        }

        var (exit, _, errors) = await RunAsync(Silent(folder.Path));

        Assert.Equal(1, exit);
        Assert.StartsWith("AG1602  ", errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task TwoProcesses_OnFoldersAndPortsOfTheirOwn_RunBesideEachOther()
    {
        using var one = new GivenFolder();
        using var other = new GivenFolder();
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        await using var first = new WaitingWriter("Audit anchor: chain");
        await using var second = new WaitingWriter("Audit anchor: chain");

        var running = Task.WhenAll(
            ServeCommand.RunAsync(Silent(one.Path), TextWriter.Null, first, stop.Token), ServeCommand.RunAsync(Silent(other.Path), TextWriter.Null, second, stop.Token));
        await Task.WhenAny(running, Task.WhenAll(first.Seen.Task, second.Seen.Task)).WaitAsync(TimeSpan.FromSeconds(30), TestContext.Current.CancellationToken);
        await stop.CancelAsync();

        Assert.All(await running, exit => Assert.Equal(0, exit));
        Assert.True(first.Seen.Task.IsCompletedSuccessfully && second.Seen.Task.IsCompletedSuccessfully);
    }

    [Theory]
    [InlineData(false, 0)]
    [InlineData(true, 1)]
    public async Task AFolderThatOtherAccountsCanRead_IsToldOnceAtTheStart_AndLeftAsItIs(bool isOpen, int lines)
    {
        using var folder = new GivenFolder();
        Directory.CreateDirectory(folder.Of("ledger"));
        if (isOpen && !OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(folder.Path, (UnixFileMode)0b111_101_101);
        }

        using var stop = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        await using var errors = new WaitingWriter("Audit anchor: chain");
        var running = ServeCommand.RunAsync(Silent(folder.Path), TextWriter.Null, errors, stop.Token);
        await Task.WhenAny(running, errors.Seen.Task).WaitAsync(TimeSpan.FromSeconds(30), TestContext.Current.CancellationToken);
        await stop.CancelAsync();

        Assert.Equal(0, await running);
        Assert.Equal(lines, errors.Written.Split('\n').Count(static line => line.Contains("AG1022: ", StringComparison.Ordinal)));
        Assert.DoesNotContain(folder.Path, errors.Written, StringComparison.Ordinal);
    }

    // Nobody listens on the discard port: the service waits for its server, judges and writes nothing.
    private static string[] Silent(string folder) =>
        ["--urls=http://127.0.0.1:0", "--AirwayGuard:Fhir:BaseUrl=http://127.0.0.1:9/fhir", "--AirwayGuard:DataDirectory", folder];

    private static async Task<(int Exit, string Output, string Errors)> RunAsync(string[] args)
    {
        await using var output = new StringWriter();
        await using var errors = new StringWriter();
        var exit = await ServeCommand.RunAsync(args, output, errors, TestContext.Current.CancellationToken);
        return (exit, output.ToString(), errors.ToString());
    }
}
