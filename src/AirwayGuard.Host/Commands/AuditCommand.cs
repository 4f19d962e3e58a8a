using System.CommandLine;
using System.Globalization;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage;
using AirwayGuard.Storage.Auditing;

namespace AirwayGuard.Host.Commands;

/// <summary><c>audit verify</c>: checks the audit chain of a ledger that no service is using, against anchors kept outside.</summary>
internal static class AuditCommand
{
    public static Command Build(TextWriter output, TextWriter errors)
    {
        var data = new Option<string>("--data") { Description = "The service's data folder (AirwayGuard:DataDirectory).", Required = true };
        var anchors = new Option<string?>("--anchors") { Description = "A file that holds log lines with anchors: chain N entry N hash H." };
        var verify = new Command("verify", "Finds an edit, a deletion, a reordering, a truncation or a replaced file.") { data, anchors };
        verify.SetAction((parsed, stop) => VerifyAsync(parsed.GetValue(data)!, parsed.GetValue(anchors), output, errors, stop));
        return new Command("audit", "Checks the audit trail.") { verify };
    }

    private static async Task<int> VerifyAsync(string data, string? anchors, TextWriter output, TextWriter errors, CancellationToken stop)
    {
        var folder = Path.Combine(data, "ledger");
        if (!Directory.Exists(folder) || (anchors is not null && !File.Exists(anchors)))
        {
            await errors.WriteLineAsync($"{Core.Diagnostics.Codes.PathMissing.Id}  {(Directory.Exists(folder) ? "--anchors" : "--data")}: there is no ledger or no such file.");
            return ExitCodes.Unreadable;
        }

        try
        {
            await using var ledger = await SqliteLedger.OpenAsync(folder, new SqliteLedgerOptions(), SystemClock.Instance);
            var heads = anchors is null ? [] : AnchorsIn(await File.ReadAllLinesAsync(anchors, stop));
            var verdict = await AuditChain.Verify(ledger.AuditTrailAsync(stop), heads, stop);
            await output.WriteLineAsync(string.Create(
                CultureInfo.InvariantCulture,
                $"{(verdict.IsSound ? "sound" : "not sound")}: {verdict.Sound.Number} entries hold together; {heads.Count} anchors; nothing outside vouches for the last {verdict.Unvouched}."));
            if (verdict.Problem is { } problem)
            {
                await output.WriteLineAsync($"{problem.Code.Id}  {problem.Where}: {problem.Why} {problem.Code.Advice}");
            }

            return verdict.IsSound ? ExitCodes.Clean : ExitCodes.Found;
        }
        catch (LedgerException refused)
        {
            await errors.WriteLineAsync($"{refused.Problem.Code.Id}  {refused.Problem.Where}: {refused.Problem.Why} {refused.Problem.Code.Advice}");
            return ExitCodes.Unreadable;
        }
    }

    // "… chain 1 entry 78 hash 3379…": whatever else a log writes on the line does not matter.
    private static List<AuditHead> AnchorsIn(IEnumerable<string> lines)
    {
        var heads = new List<AuditHead>();
        foreach (var line in lines)
        {
            var words = line.Split(' ', StringSplitOptions.RemoveEmptyEntries);
            var at = Array.IndexOf(words, "chain");
            if (at >= 0 && at + 5 < words.Length && words[at + 2] == "entry" && words[at + 4] == "hash"
                && long.TryParse(words[at + 1], CultureInfo.InvariantCulture, out var chain) && long.TryParse(words[at + 3], CultureInfo.InvariantCulture, out var number))
            {
                heads.Add(new AuditHead(chain, number, words[at + 5]));
            }
        }

        return heads;
    }
}
