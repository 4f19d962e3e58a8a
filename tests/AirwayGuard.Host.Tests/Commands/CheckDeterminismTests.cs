using System.Globalization;
using AirwayGuard.Host.Commands;
using AirwayGuard.Host.Tests.Scenarios;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

public sealed class CheckDeterminismTests : IDisposable
{
    private readonly GivenFolder _folder = new();

    public static TheoryData<string> Scenarios => [.. ScenarioFolders.All.Select(folder => Path.GetFileName(folder)!)];

    public void Dispose() => _folder.Dispose();

    [Theory]
    [MemberData(nameof(Scenarios))]
    public async Task OneFilePerResourceInAnyOrderGivesTheSameBytes(string name)
    {
        var files = await SplitAsync(name);
        var shuffled = files.ToArray();
        new Random(17).Shuffle(shuffled);

        var first = await CheckAnswer.OfAsync(files);


        Assert.Equal(first.Stdout, (await CheckAnswer.OfAsync(shuffled)).Stdout);
        Assert.Equal(first.Stdout, (await CheckAnswer.OfAsync(_folder.Path)).Stdout);
    }

    [Theory]
    [InlineData("json")]
    [InlineData("text")]
    public async Task ACultureWithOtherSignsGivesTheSameBytes(string format)
    {
        var before = CultureInfo.CurrentCulture;
        var other = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        other.NumberFormat.NumberDecimalSeparator = ",";
        other.NumberFormat.NumberGroupSeparator = ".";
        other.NumberFormat.NegativeSign = "\u2212";
        other.DateTimeFormat.TimeSeparator = ".";
        other.DateTimeFormat.DateSeparator = ".";
        foreach (var folder in ScenarioFolders.All)
        {
            string[] arguments = ["check", ScenarioRunner.InputOf(folder), "--format", format];
            var plain = await InProcessCheck.RunAsync(arguments);
            try
            {
                CultureInfo.CurrentCulture = other;
                Assert.Equal(plain, await InProcessCheck.RunAsync(arguments));
            }
            finally
            {
                CultureInfo.CurrentCulture = before;
            }
        }
    }

    // Of several versions without a stamp the last read counts: one file holds all of a resource's.
    private async Task<string[]> SplitAsync(string name)
    {
        var read = new CheckInputs();
        await read.ReadAsync([ScenarioRunner.InputOf(ScenarioFolders.All.Single(one => Path.GetFileName(one) == name))], TestContext.Current.CancellationToken);
        return
        [
            .. read.Inputs.Where(input => !input.Arrival.Body.IsEmpty)
                .GroupBy(input => (input.Arrival.Type, input.Arrival.Id ?? input.Where))
                .Select((versions, index) => _folder.File(
                    FormattableString.Invariant($"{index:000}.ndjson"),
                    [.. versions.Select(version => OneLine(version.Arrival.Body))])),
        ];
    }

    private static string OneLine(ReadOnlyMemory<byte> body) =>
        System.Text.Encoding.UTF8.GetString(body.Span).ReplaceLineEndings(" ");
}
