using System.CommandLine;
using System.Globalization;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage;
using AirwayGuard.Storage.Auditing;

namespace AirwayGuard.Host.Commands;

/// <summary><c>audit verify</c>: checks the audit chain of a ledger, in use or not, against anchors kept outside.</summary>
internal static class AuditCommand
{
    public static Command Build(TextWriter output, TextWriter errors)
    {
        var data = new Option<string>("--data") { Description = "The service's data folder (AirwayGuard:DataDirectory).", Required = true };
        var anchors = new Option<string?>("--anchors")
        {
            Description = "A file of log lines with anchors (chain N entry N hash H), or the base address of the FHIR server that holds them as AuditEvents.",
        };
        var verify = new Command("verify", "Finds an edit, a deletion, a reordering, a truncation or a replaced file.") { data, anchors };
        verify.SetAction((parsed, stop) => VerifyAsync(parsed.GetValue(data)!, parsed.GetValue(anchors), output, errors, stop));
        return new Command("audit", "Checks the audit trail.") { verify };
    }

    private static async Task<int> VerifyAsync(string data, string? anchors, TextWriter output, TextWriter errors, CancellationToken stop)
    {
        var folder = Path.Combine(data, "ledger");
        if (!Directory.Exists(folder))
        {
            await TellAsync(errors, new Problem(Codes.LedgerMissing, "--data", Directory.Exists(data) ? "the folder holds no ledger" : File.Exists(data) ? "it is no folder" : "there is no such folder"));
            return ExitCodes.Unreadable;
        }

        // Read first: what is anchored while the trail is read lies in the trail, but not the other way round.
        var (heads, problem) = anchors is null ? ([], null) : await AuditAnchors.ReadAsync(anchors, stop);
        if (heads is null)
        {
            await TellAsync(errors, problem!);
            return ExitCodes.Unreadable;
        }

        try
        {
            using var trail = AuditTrailFile.Open(folder);
            var verdict = await AuditChain.Verify(trail.ReadAsync(stop), heads, stop);
            if (verdict.NoneFits && await ServerOfAsync(trail, stop) is { } server && IsElsewhere(anchors!, server))
            {
                verdict = await AuditChain.Verify(trail.ReadAsync(stop), [], stop);
                await TellAsync(output, verdict, 0);
                await TellAsync(errors, new Problem(Codes.AnchorsOfAnother, "--anchors", $"Not one of {heads.Count} is of this trail, and this ledger is bound to another server."));
                return verdict.IsSound ? ExitCodes.Unreadable : ExitCodes.Found;
            }

            return await TellAsync(output, verdict, heads.Count);
        }
        catch (LedgerException refused)
        {
            await TellAsync(errors, refused.Problem);
            return ExitCodes.Unreadable;
        }
    }

    // The server this ledger was begun with, as its trail has it.
    private static async Task<string?> ServerOfAsync(AuditTrailFile trail, CancellationToken stop)
    {
        await foreach (var entry in trail.ReadAsync(stop))
        {
            if (entry.What == "bound")
            {
                return entry.Subject;
            }
        }

        return null;
    }

    private static bool IsElsewhere(string anchors, string server) =>
        Uri.TryCreate(anchors, UriKind.Absolute, out var address) && address.Scheme is "http" or "https" && address.AbsoluteUri.TrimEnd('/') != server.TrimEnd('/');

    private static async Task<int> TellAsync(TextWriter output, AuditVerdict verdict, int anchors)
    {
        await output.WriteLineAsync(string.Create(
            CultureInfo.InvariantCulture,
            $"{(verdict.IsSound ? "sound" : "not sound")}: {verdict.Sound.Number} entries hold together; {anchors} anchors; nothing outside vouches for the last {verdict.Unvouched}."));
        if (verdict.Problem is { } problem)
        {
            await TellAsync(output, problem);
        }

        return verdict.IsSound ? ExitCodes.Clean : ExitCodes.Found;
    }

    private static Task TellAsync(TextWriter output, Problem problem) =>
        output.WriteLineAsync(ProblemLine.Of(problem));
}
