using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Host.Service;
using AirwayGuard.Storage;
using Serilog;
using Serilog.Events;
using Serilog.Formatting.Compact;

namespace AirwayGuard.Host.Commands;

/// <summary>Runs the service: the embedded demo ward when nothing is configured, else the configured server.</summary>
internal static class ServeCommand
{
    public static async Task<int> RunAsync(string[] args)
    {
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions { Args = args, ContentRootPath = AppContext.BaseDirectory });
        var (plan, problems) = ServicePlan.Of(builder.Configuration);
        if (plan is null)
        {
            foreach (var problem in problems)
            {
                await TellAsync(problem);
            }

            return ExitCodes.Usage;
        }

        try
        {
            await using var ledger = await SqliteLedger.OpenAsync(Path.Combine(plan.DataFolder, "ledger"), new SqliteLedgerOptions(), SystemClock.Instance);
            if (await ledger.BindAsync(plan.FhirBase.AbsoluteUri, plan.FhirBase.AbsoluteUri, CancellationToken.None) is { } foreign)
            {
                await TellAsync(foreign);
                return ExitCodes.Found;
            }

            return await RunAsync(builder, plan, ledger);
        }
        catch (LedgerException refused)
        {
            await TellAsync(refused.Problem);
            return ExitCodes.Found;
        }
        catch (IOException taken) when (taken.InnerException is Microsoft.AspNetCore.Connections.AddressInUseException)
        {
            await TellAsync(new Problem(Codes.AddressInUse, plan.Listen.AbsoluteUri, "another process listens there"));
            return ExitCodes.Found;
        }
    }

    private static async Task<int> RunAsync(WebApplicationBuilder builder, ServicePlan plan, SqliteLedger ledger)
    {
        builder.WebHost.UseUrls(plan.Listen.AbsoluteUri.TrimEnd('/'));
        builder.WebHost.ConfigureKestrel(static kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = 64 * 1024 * 1024;
        });
        builder.Logging.ClearProviders();
        builder.Services.AddSerilog((_, log) => Configure(log, plan.Options.Log), preserveStaticLogger: true);
        builder.Services.AddSingleton<AuditAnchor>();
        ServiceComposition.AddService(builder.Services, builder.Configuration, plan, ledger);
        await using var app = builder.Build();
        ServiceEndpoints.Map(app, plan);
        if (plan.Options.AllowOtherAddresses)
        {
            await Console.Error.WriteLineAsync("AllowOtherAddresses is on: whoever reaches this address reads what stands, without sign-in.");
        }

        var anchor = app.Services.GetRequiredService<AuditAnchor>();
        await app.RunAsync();
        await anchor.AnchorAsync(CancellationToken.None);
        return Environment.ExitCode;
    }

    private static void Configure(LoggerConfiguration log, string form)
    {
        log.MinimumLevel.Information()
            .MinimumLevel.Override("Microsoft", LogEventLevel.Warning)
            .MinimumLevel.Override("System.Net.Http", LogEventLevel.Warning)
            .MinimumLevel.Override("Polly", LogEventLevel.Error);
        if (form == "compact")
        {
            log.WriteTo.Console(new CompactJsonFormatter(), standardErrorFromLevel: LogEventLevel.Verbose);
        }
        else
        {
            log.WriteTo.Console(
                outputTemplate: "{Timestamp:HH:mm:ss} {Level:u3} {Message:lj}{NewLine}", formatProvider: System.Globalization.CultureInfo.InvariantCulture,
                standardErrorFromLevel: LogEventLevel.Verbose);
        }
    }

    private static Task TellAsync(Problem problem) =>
        Console.Error.WriteLineAsync($"{problem.Code.Id}  {problem.Where}: {problem.Why}. {problem.Code.Advice}");
}
