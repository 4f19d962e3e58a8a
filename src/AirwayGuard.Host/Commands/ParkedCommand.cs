using System.CommandLine;
using System.Globalization;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Storage;
using AirwayGuard.Worker.Parking;

namespace AirwayGuard.Host.Commands;

/// <summary><c>parked list|show|retry|drop</c>: what could not be read, judged or sent, with its code; put back, or dropped with a reason.</summary>
internal static class ParkedCommand
{
    public static Command Build(TextWriter output, TextWriter errors)
    {
        var parked = new Command("parked", "Shows what could not be read, judged or sent, and puts it back or drops it.");
        parked.Subcommands.Add(List(output, errors));
        parked.Subcommands.Add(Show(output, errors));
        parked.Subcommands.Add(Retry(output, errors));
        parked.Subcommands.Add(Drop(output, errors));
        return parked;
    }

    private static Command List(TextWriter output, TextWriter errors)
    {
        var data = DataFolder.Option();
        var list = new Command("list", "Lists what is set aside; also while the service runs.") { data };
        list.SetAction((parsed, stop) => ReadAsync(parsed.GetValue(data), errors, async reader =>
        {
            var entries = await reader.ParkedAsync(stop);
            ParkedText.List(entries, output);
            return ExitCodes.Clean;
        }));
        return list;
    }

    private static Command Show(TextWriter output, TextWriter errors)
    {
        var (id, data) = (Id(), DataFolder.Option());
        var show = new Command("show", "Shows one thing set aside: what it is, why, and what can be done; also while the service runs.") { id, data };
        show.SetAction((parsed, stop) => ReadAsync(parsed.GetValue(data), errors, async reader =>
        {
            var number = parsed.GetValue(id);
            if ((await reader.ParkedAsync(stop)).FirstOrDefault(entry => entry.Number == number) is not { } found)
            {
                return await RefuseAsync(NotParked, errors);
            }

            var arrival = found.Item.Arrival is { } position ? await reader.ArrivalAsync(position, stop) : null;
            var trail = SubjectOf(found.Item) is { } subject ? await reader.AuditOfAsync(subject, stop) : [];
            ParkedText.Show(found, arrival, trail, output);
            return ExitCodes.Clean;
        }));
        return show;
    }

    private static Command Retry(TextWriter output, TextWriter errors)
    {
        var (id, data, all) = (Id(), DataFolder.Option(), new Option<bool>("--all") { Description = "Everything that is set aside, instead of one number." });
        id.Arity = ArgumentArity.ZeroOrOne;
        var retry = new Command("retry", "Puts one thing back, or all of them: a message is sent again, a resource is read again, a patient is judged again. The service must be stopped.") { id, all, data };
        retry.SetAction(async (parsed, stop) =>
        {
            var isNamed = parsed.GetResult(id) is { Tokens.Count: > 0 };
            if (isNamed == parsed.GetValue(all))
            {
                return await RefuseAsync(new Problem(Codes.UsageWrong, "parked retry", "give one ID or --all"), errors, ExitCodes.Usage);
            }

            long? number = isNamed ? parsed.GetValue(id) : null;
            return await WriteAsync(parsed.GetValue(data), number, errors, (ledger, map) => RetryAsync(ledger, map, number, output, errors, stop));
        });
        return retry;
    }

    // One that cannot be put back holds up no other: it is told, and shows in the exit code.
    private static async Task<int> RetryAsync(SqliteLedger ledger, CodeMap map, long? number, TextWriter output, TextWriter errors, CancellationToken stop)
    {
        long[] numbers = number is { } one ? [one] : [.. (await ledger.ParkedEntriesAsync(stop)).Select(static entry => entry.Number)];
        var (retry, exit) = (new ParkedRetry(ledger, new FhirArrivalReader(map), SystemClock.Instance), ExitCodes.Clean);
        foreach (var each in numbers)
        {
            var (said, problem) = await retry.RunAsync(each, stop);
            if (problem is null)
            {
                await output.WriteLineAsync(said);
            }
            else
            {
                var place = number is null ? string.Create(CultureInfo.InvariantCulture, $"ID {each}") : problem.Where;
                exit = await RefuseAsync(problem with { Where = place }, errors);
            }
        }

        if (numbers.Length == 0)
        {
            await output.WriteLineAsync("Nothing is set aside.");
        }

        return exit;
    }

    private static Command Drop(TextWriter output, TextWriter errors)
    {
        var (id, data) = (Id(), DataFolder.Option());
        var reason = new Option<string>("--reason") { Description = "Why it will not be read, judged or sent; recorded in the audit trail. Name no patient.", Required = true };
        reason.Validators.Add(static given =>
        {
            if (string.IsNullOrWhiteSpace(given.GetValueOrDefault<string>()) || given.GetValueOrDefault<string>()!.Length > 500)
            {
                given.AddError("it takes 1 to 500 characters");
            }
        });
        var drop = new Command("drop", "Gives one thing up, with a reason; what arrived stays in the ledger. The service must be stopped.") { id, data, reason };
        drop.SetAction((parsed, stop) => WriteAsync(parsed.GetValue(data), parsed.GetValue(id), errors, async (ledger, _) =>
        {
            if (!await ledger.DropParkedAsync(parsed.GetValue(id), parsed.GetValue(reason)!.Trim(), stop))
            {
                return await RefuseAsync(NotParked, errors);
            }

            await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{parsed.GetValue(id)} dropped; the reason is in the audit trail."));
            return ExitCodes.Clean;
        }));
        return drop;
    }

    // What is recorded of a resource's reading stands under its position, which the line about the arrival gives.
    private static string? SubjectOf(ParkedItem item) => item.Outgoing?.ToString() ?? (item.Patient.IsNone ? null : item.Where);

    private static Argument<long> Id() => new("ID") { Description = "Its number, as parked list gives it." };

    private static async Task<int> ReadAsync(string? data, TextWriter errors, Func<SqliteLedgerReader, Task<int>> read)
    {
        if (DataFolder.Of(data).Folder is not { } folder)
        {
            return await RefuseAsync(DataFolder.NotNamed, errors, ExitCodes.Usage);
        }

        try
        {
            await using var reader = SqliteLedgerReader.Open(folder);
            return await read(reader);
        }
        catch (LedgerException refused)
        {
            return await RefuseAsync(refused.Problem, errors);
        }
    }

    // A ledger has one writer: while the service runs, it is the service.
    private static async Task<int> WriteAsync(string? data, long? number, TextWriter errors, Func<SqliteLedger, CodeMap, Task<int>> write)
    {
        var (folder, plan) = DataFolder.Of(data);
        if (folder is null || plan is null)
        {
            return await RefuseAsync(DataFolder.NotNamed, errors, ExitCodes.Usage);
        }

        try
        {
            LedgerFile.Existing(folder);
            await using var ledger = await SqliteLedger.OpenAsync(folder, new SqliteLedgerOptions(), SystemClock.Instance);
            return await write(ledger, plan.Map);
        }
        catch (LedgerException refused) when (refused.Problem.Code == Codes.LedgerInUse)
        {
            // Nobody is asked to stop the service for a number that is not there.
            if (number is { } one && !await IsParkedAsync(folder, one))
            {
                return await RefuseAsync(NotParked, errors);
            }

            return await RefuseAsync(new Problem(Codes.ParkedWhileServing, "--data", "The service holds this ledger."), errors);
        }
        catch (LedgerException refused)
        {
            return await RefuseAsync(refused.Problem, errors);
        }
    }

    private static Problem NotParked => new(Codes.ParkedUnknown, "ID", "Nothing of this number is set aside.");

    private static async Task<bool> IsParkedAsync(string folder, long number)
    {
        await using var reader = SqliteLedgerReader.Open(folder);
        return (await reader.ParkedAsync(CancellationToken.None)).Any(entry => entry.Number == number);
    }

    private static async Task<int> RefuseAsync(Problem problem, TextWriter errors, int exit = ExitCodes.Unreadable)
    {
        await errors.WriteLineAsync(ProblemLine.Of(problem));
        return exit;
    }
}
