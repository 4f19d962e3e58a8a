namespace AirwayGuard.Host.Commands;

/// <summary>Runs the service.</summary>
internal static class ServeCommand
{
    public static async Task<int> RunAsync(string[] args)
    {
        await Console.Error.WriteLineAsync("not yet: " + args.Length);
        return ExitCodes.Usage;
    }
}
