using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Host.Commands;
using AirwayGuard.Host.Service.Logging;
using AirwayGuard.Storage;

try
{
    // With no verb, or options only, it runs the service; everything else is a command.
    return args.Length == 0 || (args[0].StartsWith("--", StringComparison.Ordinal) && args[0] is not ("--help" or "--version"))
        ? await ServeCommand.RunAsync(args, Console.Out, Console.Error, CancellationToken.None)
        : await CommandLine.RunAsync(args, Console.Out, Console.Error);
}
catch (Exception fault) when (LedgerFile.TroubleOf(fault) is not null)
{
    // Damage that is met only when a page is read.
    await Console.Error.WriteLineAsync(ProblemLine.Of(LedgerFile.TroubleOf(fault)!));
    return ExitCodes.Unreadable;
}
catch (Exception fault)
{
    // The runtime would print the exception's message, which may quote what was charted.
    await Console.Error.WriteLineAsync($"{Codes.OwnFault.Id}  {Codes.OwnFault.Title}. {Codes.OwnFault.Advice} {ExceptionTrace.Of(fault)}");
    return ExitCodes.OwnFault;
}
