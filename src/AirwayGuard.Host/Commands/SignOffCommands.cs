using System.Collections.Immutable;
using System.CommandLine;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.SignOffs;
using AirwayGuard.Host.Service;
using AirwayGuard.Rules;
using AirwayGuard.Storage;
using AirwayGuard.Worker.SignOffs;

namespace AirwayGuard.Host.Commands;

/// <summary><c>rules promote|withdraw|restore|signed</c>: who let which rules speak, and where.</summary>
internal static class SignOffCommands
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);
    private static readonly TimeSpan Breath = TimeSpan.FromMilliseconds(100);

    public static void AddTo(Command rules, TextWriter output, TextWriter errors)
    {
        rules.Subcommands.Add(Promote(output, errors));
        rules.Subcommands.Add(Withdraw(output, errors));
        rules.Subcommands.Add(Restore(output, errors));
        rules.Subcommands.Add(Signed(output, errors));
    }

    private static Command Promote(TextWriter output, TextWriter errors)
    {
        var set = new Argument<string>("RULES") { Description = "A rule-set document with its cases beside it, or the name of a shipped one." };
        var (by, reason, checks, units, data) = (By(), Reason(), Checks(), Units(), DataFolder.Option());
        var promote = new Command("promote", "Puts a rule set in force, and lets its checks speak: what they find is written to the server. Also while the service runs.")
        {
            set, by, reason, checks, units, data,
        };
        promote.SetAction(async (parsed, stop) =>
        {
            var reading = ConfiguredFiles.Rules(parsed.GetValue(set)!);
            if (reading.RuleSet is null)
            {
                return RulesLint.Report(reading, errors) == RulesLint.NotOpened ? ExitCodes.Unreadable : ExitCodes.Found;
            }

            // Whoever signs, signs what was seen to do what its cases say.
            using var tested = new StringWriter();
            var exit = RulesTest.Run(reading, [], false, tested, errors);
            if (exit == RulesTest.Fails || (exit == RulesTest.NotOpened && RulesTest.HasCases(reading)))
            {
                await errors.WriteAsync(tested.ToString());
                return await RefuseAsync(new Problem(Codes.CasesFail, reading.File, "it was not promoted"), errors, ExitCodes.Found);
            }

            return await AskAsync(
                new SignOffRequest(SignOffAct.Promote, reading.Document, reading.File, [.. parsed.GetValue(checks)!], [.. parsed.GetValue(units)!], parsed.GetValue(by)!, parsed.GetValue(reason)!),
                parsed.GetValue(data), output, errors, stop, tested.ToString());
        });
        return promote;
    }

    private static Command Withdraw(TextWriter output, TextWriter errors)
    {
        var (by, reason, checks, units, data) = (By(), Reason(), Checks(), Units(), DataFolder.Option());
        var withdraw = new Command("withdraw", "Silences checks of the rule set in force: they are judged and recorded as before, their Flags end, nothing new leaves; what was said is still corrected. Also while the service runs.")
        {
            by, reason, checks, units, data,
        };
        withdraw.SetAction((parsed, stop) => AskAsync(
            new SignOffRequest(SignOffAct.Withdraw, default, "", [.. parsed.GetValue(checks)!], [.. parsed.GetValue(units)!], parsed.GetValue(by)!, parsed.GetValue(reason)!),
            parsed.GetValue(data), output, errors, stop));
        return withdraw;
    }

    private static Command Restore(TextWriter output, TextWriter errors)
    {
        var (by, reason, data) = (By(), Reason(), DataFolder.Option());
        var restore = new Command("restore", "Puts the rule set in force again that was in force before this one, speaking where it spoke. Also while the service runs.") { by, reason, data };
        restore.SetAction((parsed, stop) => AskAsync(
            new SignOffRequest(SignOffAct.Restore, default, "", [], [], parsed.GetValue(by)!, parsed.GetValue(reason)!), parsed.GetValue(data), output, errors, stop));
        return restore;
    }

    private static Command Signed(TextWriter output, TextWriter errors)
    {
        var data = DataFolder.Option();
        var signed = new Command("signed", "Lists who promoted, withdrew and restored what, when and why, and what speaks now; also while the service runs.") { data };
        signed.SetAction(async (parsed, stop) =>
        {
            if (DataFolder.Of(parsed.GetValue(data)).Folder is not { } folder)
            {
                return await RefuseAsync(DataFolder.NotNamed, errors, ExitCodes.Usage);
            }

            try
            {
                await using var reader = SqliteLedgerReader.Open(folder);
                await SignedText.WriteAsync(reader, output, stop);
                return ExitCodes.Clean;
            }
            catch (LedgerException refused)
            {
                return await RefuseAsync(refused.Problem, errors);
            }
        });
        return signed;
    }

    /// <param name="before">What is told first where it is done.</param>
    private static async Task<int> AskAsync(SignOffRequest request, string? data, TextWriter output, TextWriter errors, CancellationToken stop, string before = "")
    {
        if (DataFolder.Of(data).Folder is not { } folder)
        {
            return await RefuseAsync(DataFolder.NotNamed, errors, ExitCodes.Usage);
        }

        SignOffAnswer answer;
        try
        {
            LedgerFile.Existing(folder);
            await using var ledger = await SqliteLedger.OpenAsync(folder, new SqliteLedgerOptions(), SystemClock.Instance);
            answer = await SignedOffStart.DeskOf(ledger, SystemClock.Instance).ApplyAsync(request, stop);
        }
        catch (LedgerException refused) when (refused.Problem.Code == Codes.LedgerInUse)
        {
            answer = await AskServiceAsync(SignOffMail.In(Path.GetDirectoryName(folder)!), request, stop);
        }
        catch (LedgerException refused)
        {
            return await RefuseAsync(refused.Problem, errors);
        }

        if (answer.Problem is { } problem)
        {
            return await RefuseAsync(problem, errors, problem.Code == Codes.SignOffNeedsAPerson || problem.Code == Codes.SignOffUnitWrong ? ExitCodes.Usage : ExitCodes.Found);
        }

        await output.WriteAsync(before);
        await output.WriteLineAsync(answer.Said);
        return ExitCodes.Clean;
    }

    // A ledger has one writer: while the service runs, it is the service.
    private static async Task<SignOffAnswer> AskServiceAsync(SignOffMail mail, SignOffRequest request, CancellationToken stop)
    {
        var id = mail.Post(request with { Posted = SystemClock.Instance.GetUtcNow() });
        var until = SystemClock.Instance.GetUtcNow() + Patience;
        while (SystemClock.Instance.GetUtcNow() < until)
        {
            if (mail.Take(id) is { } answer)
            {
                return answer;
            }

            await Task.Delay(Breath, SystemClock.Instance, stop);
        }

        return mail.TakeBack(id) || mail.Take(id) is not { } late ? SignOffAnswer.Refused(Codes.SignOffNotTaken, "rules", "the service holds the ledger and did not answer") : late;
    }

    private static Option<string> By() => new("--by") { Description = "Who answers for it: a person's name.", Required = true };

    private static Option<string> Reason() => new("--reason") { Description = "Why, for the audit trail. Name no patient.", Required = true };

    private static Option<string[]> Checks() => new("--check") { Description = "A check's id; may be given more than once. Without it all checks of the set.", DefaultValueFactory = _ => [] };

    private static Option<string[]> Units() => new("--unit") { Description = "A place as charting names it, such as Location/icu; may be given more than once. Without it everywhere.", DefaultValueFactory = _ => [] };

    private static async Task<int> RefuseAsync(Problem problem, TextWriter errors, int exit = ExitCodes.Unreadable)
    {
        await errors.WriteLineAsync(ProblemLine.Of(problem));
        return exit;
    }
}
