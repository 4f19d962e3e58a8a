using AirwayGuard.Host.Service;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.Worker.Judging;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace AirwayGuard.Host.Tests.Service;

/// <summary>What was charted goes to the person at the terminal, and into no file or journal but for the demo's inventions.</summary>
public sealed class StandingTableTests
{
    [Theory]
    [InlineData(true, false, true)]
    [InlineData(false, false, false)]
    [InlineData(false, true, true)]
    public async Task PatientsAreNamed_AtATerminalAndInTheDemoOnly(bool isToATerminal, bool isDemo, bool isNamed)
    {
        await using var service = await GivenService.StartAsync(isDemo ? ["demo", "AirwayGuard:UnknownAge=strictest-band"] : ["AirwayGuard:Mode=live", "AirwayGuard:UnknownAge=strictest-band"]);
        var stop = TestContext.Current.CancellationToken;
        await service.Ledger.KeepAsync([Charted.Vacuum(service.Ledger, "o1", "1", "Patient/7", 250)], null, stop);
        await service.SweptAsync();
        await service.Services.GetRequiredService<JudgeStep>().StepAsync(stop);
        using var output = new StringWriter();

        await StandingTable.WriteAsync(
            service.Ledger, service.Services.GetRequiredService<ServicePlan>(), service.Services.GetRequiredService<BasisInForce>().Current, Charted.Morning, new ServiceVoice(output, TextWriter.Null) { IsToATerminal = isToATerminal }, stop);

        Assert.Contains("1 finding stands", output.ToString(), StringComparison.Ordinal);
        Assert.Equal((isNamed, isNamed), (output.ToString().Contains("Patient/7", StringComparison.Ordinal), output.ToString().Contains("250", StringComparison.Ordinal)));
    }
}
