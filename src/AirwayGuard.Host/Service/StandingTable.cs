using System.Globalization;
using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Judging;
using Spectre.Console;

namespace AirwayGuard.Host.Service;

/// <summary>What stands, as a table for the person who started the service, with the addresses to open.</summary>
internal static class StandingTable
{
    public static async Task WriteAsync(ILedger ledger, ServicePlan plan, ServiceBasis basis, DateTimeOffset now, ServiceVoice voice, CancellationToken stop)
    {
        var output = voice.Output;
        var all = await StandingFindings.ReadAsync(ledger, basis.Rules, basis.Speaks, now, stop);
        var shown = all.Where(row => row.Withheld.Length == 0).ToList();
        var standing = shown.Where(row => row.Stands).ToList();
        // The demo's inventions are nobody's.
        if (plan.IsDemo || voice.IsToATerminal)
        {
            Write(standing, output);
        }

        await output.WriteLineAsync($"{standing.Count} {(standing.Count == 1 ? "finding stands" : "findings stand")} under {basis.Rules.Name} {basis.Rules.Version} ({VoiceWords.Of(basis)}).");
        await CountAsync(shown.Where(row => !row.Stands), row => row.Title, $"found with one pass, session, setting or order in the last {StandingFindings.Lately} hours", output);
        await CountAsync(all.Where(row => row.Withheld.Length > 0), row => $"{row.Title} ({row.Withheld})", "more recorded and withheld", output);
        var notTold = await NotTold.ReadAsync(ledger, now, stop);
        if (notTold.Count > 0)
        {
            await output.WriteLineAsync(
                $"{notTold.Sum(row => row.Times)} not judged in the last {StandingFindings.Lately} hours, since something is not charted: {string.Join("; ", notTold.Select(row => $"{row.Times} {row.Title} ({row.Missing})"))}.");
        }

        await output.WriteLineAsync("Limits need local approval; local policy and licensed practice decide. This is no alarm and no treatment advice.");
        await output.WriteLineAsync($"Open {plan.Listen} for what stands, {plan.FhirBase.AbsoluteUri.TrimEnd('/')}/metadata for the server, {plan.Listen}health/ready for health. Ctrl-C stops.");
        if (plan.IsDemo)
        {
            await output.WriteLineAsync($"The demo's data are in {plan.DataFolder}; stop it and delete that folder to start afresh.");
        }

        await output.FlushAsync(stop);
    }

    private static void Write(IReadOnlyList<StandingRow> rows, TextWriter output)
    {
        var table = new Table().Border(TableBorder.Simple);
        foreach (var heading in (string[])["Patient", "Severity", "Check", "Value against limit", "Since (UTC)", "What would clear it"])
        {
            table.AddColumn(heading);
        }

        table.Columns[4].NoWrap = true;
        foreach (var row in rows)
        {
            table.AddRow(
                row.Patient.EscapeMarkup(), row.Severity, row.Title.EscapeMarkup(), row.Say.EscapeMarkup(),
                row.Since.UtcDateTime.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture) + (row.Late ? ", known late" : ""), row.Clears.EscapeMarkup());
        }

        var console = AnsiConsole.Create(new AnsiConsoleSettings { Ansi = AnsiSupport.No, Out = new AnsiConsoleOutput(output) });
        console.Profile.Width = 160;
        console.Write(table);
    }

    // What may be many is counted by what it is, and told whole on the page.
    private static async Task CountAsync(IEnumerable<StandingRow> rows, Func<StandingRow, string> kind, string what, TextWriter output)
    {
        var kinds = rows.GroupBy(kind, StringComparer.Ordinal).Select(group => (Kind: group.Key, Count: group.Count()))
            .OrderByDescending(one => one.Count).ThenBy(one => one.Kind, StringComparer.Ordinal).ToList();
        if (kinds.Count > 0)
        {
            await output.WriteLineAsync($"{kinds.Sum(one => one.Count)} {what}: {string.Join("; ", kinds.Select(one => $"{one.Count} {one.Kind}"))}.");
        }
    }
}
