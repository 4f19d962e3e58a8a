using AirwayGuard.Host.Commands;

// With no verb, or options only, it runs the service; everything else is a command.
return args.Length == 0 || (args[0].StartsWith("--", StringComparison.Ordinal) && args[0] is not ("--help" or "--version"))
    ? await ServeCommand.RunAsync(args)
    : await CommandLine.RunAsync(args, Console.Out, Console.Error);
