using System.Globalization;
using AirwayGuard.Core.Ports;
using Spectre.Console;

namespace AirwayGuard.Host.Service;

/// <summary>What stands, as a table for the person who started the service, with the addresses to open.</summary>
internal static class StandingTable
{
    public static async Task WriteAsync(ILedger ledger, ServicePlan plan, TextWriter output, CancellationToken stop)
    {
        var table = new Table().Border(TableBorder.Simple);
        foreach (var heading in (string[])["Patient", "Severity", "Check", "Value against limit", "Since (UTC)", "What would clear it"])
        {
            table.AddColumn(heading);
        }

        table.Columns[4].NoWrap = true;
        var all = await StandingFindings.ReadAsync(ledger, plan.Basis.Rules, plan.Basis.Live, stop);
        var rows = all.Where(row => row.Withheld.Length == 0).ToList();
        foreach (var row in rows)
        {
            table.AddRow(
                row.Patient.EscapeMarkup(), row.Severity, row.Title.EscapeMarkup(), row.Say.EscapeMarkup(),
                row.Since.UtcDateTime.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture) + (row.Late ? ", charted late" : ""), row.Clears.EscapeMarkup());
        }

        var console = AnsiConsole.Create(new AnsiConsoleSettings { Ansi = AnsiSupport.No, Out = new AnsiConsoleOutput(output) });
        console.Profile.Width = 160;
        console.Write(table);
        await output.WriteLineAsync($"{rows.Count} findings stand under {plan.Basis.Rules.Name} {plan.Basis.Rules.Version} ({(plan.Basis.Live ? "live" : "silent: nothing is written to the server")}).");
        foreach (var row in all.Where(row => row.Withheld.Length > 0))
        {
            await output.WriteLineAsync($"Withheld: {row.Patient}, {row.Title}: {row.Withheld}.");
        }

        if (rows.Count < all.Count)
        {
            await output.WriteLineAsync($"{all.Count - rows.Count} more recorded and withheld.");
        }

        await output.WriteLineAsync("Limits need local approval; local policy and licensed practice decide. This is no alarm and no treatment advice.");
        await output.WriteLineAsync($"Open {plan.Listen} for what stands, {plan.FhirBase}/metadata for the server, {plan.Listen}health/ready for health. Ctrl-C stops.");
        await output.FlushAsync(stop);
    }
}
