using System.CommandLine;
using System.Text;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Storage;
using AirwayGuard.Worker.Overrides;

namespace AirwayGuard.Host.Commands;

/// <summary><c>overrides</c>: what people did with the cards of CDS Hooks, check by check; also while the service runs.</summary>
internal static class OverridesCommand
{
    private const string CommentsFollow = "The output holds comments, which are people's own words about patients: handle it as patient data.";

    public static Command Build(TextWriter output, TextWriter errors)
    {
        var data = DataFolder.Option();
        var since = new Option<string?>("--since") { Description = "Cards given at this time or later (ISO 8601 with offset). Default: from the first on." };
        var until = new Option<string?>("--until") { Description = "Cards given before this time (ISO 8601 with offset). Default: to the last." };
        var format = new Option<string>("--format") { Description = "text (default), json or csv.", DefaultValueFactory = _ => "text" };
        format.Only("text", "json", "csv");
        var comments = new Option<bool>("--with-comments") { Description = "What people wrote besides, which is patient data; in text and json only." };
        var overrides = new Command("overrides", "Counts what people did with cards, check by check: accepted, overridden and why, not answered; also while the service runs.") { data, since, until, format, comments };
        overrides.SetAction(async (parsed, stop) =>
        {
            if (!TryRead(parsed.GetValue(since), out var from))
            {
                return await RefuseAsync(AsOfTime.Unreadable("overrides", "--since"), errors, ExitCodes.Usage);
            }

            if (!TryRead(parsed.GetValue(until), out var to))
            {
                return await RefuseAsync(AsOfTime.Unreadable("overrides", "--until"), errors, ExitCodes.Usage);
            }

            if (from >= to)
            {
                return await RefuseAsync(new Problem(Codes.UsageWrong, "overrides --until", "it is not later than --since"), errors, ExitCodes.Usage);
            }

            var (form, withComments) = (parsed.GetValue(format)!, parsed.GetValue(comments));
            if (withComments && form == "csv")
            {
                return await RefuseAsync(new Problem(Codes.UsageWrong, "overrides --with-comments", "csv never holds comments; take text or json"), errors, ExitCodes.Usage);
            }

            if (DataFolder.Of(parsed.GetValue(data)).Folder is not { } folder)
            {
                return await RefuseAsync(DataFolder.NotNamed, errors, ExitCodes.Usage);
            }

            return await OfLedgerAsync(folder, (from, to), form, withComments, output, errors, stop);
        });
        return overrides;
    }

    private static async Task<int> OfLedgerAsync(
        string folder, (DateTimeOffset? Since, DateTimeOffset? Until) given, string format, bool withComments, TextWriter output, TextWriter errors, CancellationToken stop)
    {
        try
        {
            await using var ledger = SqliteLedgerReader.Open(folder);
            var cards = await ledger.CardsAsync(given.Since ?? DateTimeOffset.MinValue, given.Until ?? DateTimeOffset.MaxValue, stop);
            if (withComments)
            {
                await errors.WriteLineAsync(CommentsFollow);
            }

            await PrintAsync(OverrideFigures.Of(cards, given.Since, given.Until, withComments), format, output);
            return ExitCodes.Clean;
        }
        catch (LedgerException refused)
        {
            return await RefuseAsync(refused.Problem, errors, ExitCodes.Unreadable);
        }
    }

    private static async Task PrintAsync(OverrideReport report, string format, TextWriter output)
    {
        switch (format)
        {
            case "json":
                using (var json = new MemoryStream())
                {
                    OverrideJson.Write(report, json);
                    await output.WriteLineAsync(Encoding.UTF8.GetString(json.ToArray()));
                }

                break;
            case "csv":
                OverrideCsv.Write(report, output);
                break;
            default:
                OverrideText.Write(report, output);
                break;
        }
    }

    private static bool TryRead(string? text, out DateTimeOffset? time)
    {
        time = text is not null && AsOfTime.TryRead(text, out var read) ? read : null;
        return text is null || time is not null;
    }

    private static async Task<int> RefuseAsync(Problem problem, TextWriter errors, int exit)
    {
        await errors.WriteLineAsync(ProblemLine.Of(problem));
        return exit;
    }
}
