using System.Net;
using System.Net.Sockets;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Host.Service;
using AirwayGuard.Host.Service.CdsHooks;
using AirwayGuard.Sandbox;
using AirwayGuard.Storage;
using AirwayGuard.Worker.Judging;
using Microsoft.AspNetCore.Connections;

namespace AirwayGuard.Host.Commands;

/// <summary>Runs the service: the embedded demo ward when nothing is configured, else the configured server.</summary>
internal static class ServeCommand
{
    /// <param name="stop">Ends it besides the signals of the system.</param>
    public static async Task<int> RunAsync(string[] args, TextWriter output, TextWriter errors, CancellationToken stop)
    {
        var voice = new ServiceVoice(output, errors) { IsToATerminal = !Console.IsOutputRedirected };
        if (ServiceArguments.ProblemsOf(args) is { Count: > 0 } wrong)
        {
            return await RefuseAsync(voice, wrong);
        }

        var builder = ServiceHost.Begin(args);
        var (plan, problems) = ServicePlan.Of(builder.Configuration);
        if (plan is null)
        {
            return await RefuseAsync(voice, problems);
        }

        try
        {
            await using var ledger = await SqliteLedger.OpenAsync(Path.Combine(plan.DataFolder, "ledger"), new SqliteLedgerOptions(), SystemClock.Instance);
            if (await ledger.BindAsync(plan.FhirBase.AbsoluteUri, plan.FhirBase.AbsoluteUri, stop) is { } foreign)
            {
                await voice.TellAsync(foreign);
                return ExitCodes.Found;
            }

            if (IsTaken(plan.Listen))
            {
                return await RefuseAddressAsync(voice, plan);
            }

            var (basis, unread) = await SignedOffStart.BeginAsync(ledger, plan, SystemClock.Instance, stop);
            if (basis is null)
            {
                await voice.TellAsync(unread!);
                return ExitCodes.Found;
            }

            foreach (var note in SignedOffStart.NotesOf(plan, basis.Current))
            {
                await voice.Errors.WriteLineAsync(note);
            }

            return await RunAsync(builder, plan, ledger, basis, voice, stop);
        }
        catch (LedgerException refused)
        {
            await voice.TellAsync(refused.Problem);
            return ExitCodes.Found;
        }
        catch (SandboxFolderException refused)
        {
            await voice.TellAsync(new Problem(Codes.DemoDataUnusable, "AirwayGuard:DataDirectory", refused.Message));
            return ExitCodes.Found;
        }
        catch (IOException taken) when (taken.InnerException is AddressInUseException)
        {
            return await RefuseAddressAsync(voice, plan);
        }
    }

    private static async Task<int> RefuseAddressAsync(ServiceVoice voice, ServicePlan plan)
    {
        await voice.TellAsync(new Problem(Codes.AddressInUse, plan.Listen.AbsoluteUri, "another process listens there"));
        return ExitCodes.Found;
    }

    // Asked before the host starts, which tells of its background services as failed where its server cannot.
    private static bool IsTaken(Uri listen)
    {
        var address = IPAddress.TryParse(listen.DnsSafeHost, out var told) ? told : IPAddress.Loopback;
        try
        {
            using var probe = new TcpListener(address, listen.Port);
            probe.Start();
            return false;
        }
        catch (SocketException refused) when (refused.SocketErrorCode == SocketError.AddressAlreadyInUse)
        {
            return true;
        }
    }

    private static async Task<int> RefuseAsync(ServiceVoice voice, IReadOnlyList<Problem> problems)
    {
        foreach (var problem in problems)
        {
            await voice.TellAsync(problem);
        }

        return ExitCodes.Usage;
    }

    private static async Task<int> RunAsync(WebApplicationBuilder builder, ServicePlan plan, SqliteLedger ledger, BasisInForce basis, ServiceVoice voice, CancellationToken stop)
    {
        ServiceComposition.AddRunner(builder.Services);
        await using var app = ServiceHost.Build(builder, plan, ledger, basis, voice);
        if (HookCallers.AsksNobodyIn(plan))
        {
            await voice.Errors.WriteLineAsync(ProblemLine.Of(new Problem(Codes.HooksOpen, "/cds-services", "whoever reaches this address may ask; there is no sign-in")));
        }

        if (plan.Options.AllowOtherAddresses)
        {
            await voice.Errors.WriteLineAsync("AllowOtherAddresses is on: whoever reaches this address reads what stands, without sign-in.");
        }

        app.Services.GetRequiredService<FolderRights>().Tell();
        var state = app.Services.GetRequiredService<ServiceState>();
        var (anchor, trust) = (app.Services.GetRequiredService<AuditAnchor>(), app.Services.GetRequiredService<LedgerTrust>());
        await app.StartAsync(stop);
        await app.WaitForShutdownAsync(stop);
        try
        {
            await anchor.EndAsync(answers: !plan.IsDemo);
        }
        catch (Exception trouble) when (trust.IsLostBy(trouble))
        {
            return ExitCodes.Found;
        }

        return state.HasFailed ? ExitCodes.Found : ExitCodes.Clean;
    }
}
