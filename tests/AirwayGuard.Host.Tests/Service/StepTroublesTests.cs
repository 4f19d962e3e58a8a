using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Host.Service;
using AirwayGuard.Worker.Intake;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging;
using Xunit;

namespace AirwayGuard.Host.Tests.Service;

/// <summary>A disk without room is told as that, once, whichever steps meet it; any other fault of a step is told as its own.</summary>
public sealed class StepTroublesTests : IDisposable
{
    private const int Full = 13;

    private readonly IntakeHealth _health = new();
    private readonly LoggerFactory _loggers = new();
    private readonly StringWriter _log = new();
    private readonly StepTroubles _troubles;

    public StepTroublesTests()
    {
        _loggers.AddProvider(new LineProvider(_log));
        _troubles = new StepTroubles(_health, _loggers.CreateLogger<StepTroubles>());
    }

    public void Dispose()
    {
        _loggers.Dispose();
        _log.Dispose();
    }

    [Fact]
    public void AFullDiskIsOneTrouble_AndOneLineThatSaysThatNothingIsLostAndWhatToDo()
    {
        _troubles.Failed("sweep", new SqliteException("full", Full));
        _troubles.Failed("judge", new InvalidOperationException("wrapped", new SqliteException("full", Full)));
        _troubles.Failed("sweep", new IOException("No space left on device", 28));

        Assert.True(_troubles.IsFull);
        Assert.Equal([(StepTroubles.Folder, Codes.DataFolderFull)], _health.Troubles);
        var line = Assert.Single(Lines);
        Assert.StartsWith("AG1020: the data folder has no room. Nothing is lost: ", line, StringComparison.Ordinal);
        Assert.Contains("Make room on the disk of AirwayGuard:DataDirectory", line, StringComparison.Ordinal);
    }

    [Fact]
    public void OnceEachStepThatMetItHasRun_ThereIsRoomAgain()
    {
        _troubles.Failed("sweep", new SqliteException("full", Full));
        _troubles.Failed("judge", new SqliteException("full", Full));

        _troubles.Ran("judge");
        _troubles.Ran("send");
        Assert.True(_troubles.IsFull);
        _troubles.Ran("sweep");

        Assert.False(_troubles.IsFull);
        Assert.Empty(_health.Standing);
        Assert.Equal("AG1020 is over: the data folder has room again, and what waited goes on", Lines[1]);
    }

    [Fact]
    public void AnyOtherFaultIsToldEachTimeWithItsCount_AndStandsWhileItLasts()
    {
        Assert.Equal((1, 2), (_troubles.Failed("judge", new SqliteException("locked", 5)), _troubles.Failed("judge", new SqliteException("locked", 5))));

        Assert.False(_troubles.IsFull);
        Assert.Equal([("step judge", "AG1012")], _health.Standing);
        Assert.Equal("AG1012: step judge failed with SqliteException, 2 times in a row; it is tried again", Lines[1]);
        _troubles.Ran("judge");
        Assert.Empty(_health.Standing);
        Assert.Equal(1, _troubles.Failed("judge", new SqliteException("locked", 5)));
    }

    [Theory]
    [InlineData(11, "AG1605", "The file ledger.db is not a sound database.")]
    [InlineData(8, "AG1604", "The file ledger.db may not be written to by this account.")]
    public void ALedgerThatIsDamagedOrNotWritable_IsToldAsThatWithWhatToDo_UntilTheStepRuns(int sqlite, string code, string why)
    {
        _troubles.Failed("sweep", new SqliteException("it says", sqlite));
        _troubles.Failed("sweep", new SqliteException("it says", sqlite));
        var during = _health.Standing;
        _troubles.Ran("sweep");

        Assert.Equal([("step sweep", code)], during);
        Assert.Empty(_health.Standing);
        Assert.StartsWith($"{code}: step sweep failed 2 times in a row. {why} ", Lines[1], StringComparison.Ordinal);
    }

    private string[] Lines => _log.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries);
}
