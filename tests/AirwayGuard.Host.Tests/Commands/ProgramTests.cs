using System.Diagnostics;
using System.Text.Json;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary>The program itself, started as a user starts it.</summary>
public sealed class ProgramTests
{
    [Theory]
    [InlineData("C")]
    [InlineData("de_DE.UTF-8")]
    [InlineData("tr_TR.UTF-8")]
    public async Task StandardInputIsReadAndStandardOutputHoldsOnlyData(string language)
    {
        var (exit, stdout, stderr) = await RunAsync(language, ["check", "-", "--format", "json"], Given.Adult + "\n" + Given.Vacuum("a", "150.5"), TestContext.Current.CancellationToken);

        using var report = JsonDocument.Parse(stdout);
        var finding = Assert.Single(report.RootElement.GetProperty("findings").EnumerateArray());
        Assert.Equal(1, exit);
        Assert.Empty(stderr);
        Assert.Equal("150.5", finding.GetProperty("value").GetProperty("value").GetRawText());
        Assert.Contains("150.5 mmHg", finding.GetProperty("say").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task EmptyStandardInputCouldNotBeRead()
    {
        var (exit, stdout, _) = await RunAsync("C", ["check", "-", "--format", "json"], "", TestContext.Current.CancellationToken);

        Assert.Equal(2, exit);
        Assert.Contains("\"AG2003\"", stdout, StringComparison.Ordinal);
    }

    private static async Task<(int Exit, string Stdout, string Stderr)> RunAsync(string language, string[] arguments, string input, CancellationToken stop)
    {
        var start = new ProcessStartInfo(Path.Combine(AppContext.BaseDirectory, "airwayguard"), arguments)
        {
            UseShellExecute = false,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.Environment["LC_ALL"] = language;
        using var process = Process.Start(start)!;
        await process.StandardInput.WriteAsync(input.AsMemory(), stop);
        process.StandardInput.Close();
        var errors = process.StandardError.ReadToEndAsync(stop);
        var output = await process.StandardOutput.ReadToEndAsync(stop);
        await process.WaitForExitAsync(stop);
        return (process.ExitCode, output, await errors);
    }
}
