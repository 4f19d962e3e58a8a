using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using AirwayGuard.TestKit.EngineMutants;

namespace AirwayGuard.Benchmarks.EngineMutants;

/// <summary>
/// <c>mutants [--only ID[,ID]] [--from N]</c>: makes each small change of the list to a copy of the judging, and runs the tests of Core and of the rules until
/// one fails. Exit 0 if each was caught, 1 if one survived or the list or the tests have a fault, 2 for wrong usage.
/// </summary>
internal static class MutantsCommand
{
    public const string Name = "mutants";
    private const string Usage = "Usage: mutants [--only ID[,ID]] [--from N, the place in the list to begin at, default 1]";

    public static async Task<int> RunAsync(IReadOnlyList<string> args, TextWriter output, TextWriter errors)
    {
        if (!TryRead(args, out var mutants))
        {
            await errors.WriteLineAsync(Usage);
            return 2;
        }

        if (MutantScratch.Lacks() is { } lacking)
        {
            await errors.WriteLineAsync($"{lacking} is not there: build the tests of Core and of the rules in Release first, and run this from the repository's root.");
            return 2;
        }

        using var stop = new CancellationTokenSource();
        using var asked = PosixSignalRegistration.Create(PosixSignal.SIGTERM, Stop);
        using var interrupted = PosixSignalRegistration.Create(PosixSignal.SIGINT, Stop);
        try
        {
            return await RunAsync(mutants, output, errors, stop.Token);
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            await errors.WriteLineAsync("cut off");
            return 1;
        }

        // Otherwise a build or test would outlive this process, and the copy stay behind.
        void Stop(PosixSignalContext signal)
        {
            signal.Cancel = true;
            stop.Cancel();
        }
    }

    private static async Task<int> RunAsync(IReadOnlyList<EngineMutant> mutants, TextWriter output, TextWriter errors, CancellationToken stop)
    {
        var began = Stopwatch.GetTimestamp();
        using var scratch = MutantScratch.Copy();
        if (await scratch.PrepareAsync(stop) is { } fault)
        {
            await errors.WriteLineAsync(fault);
            return 1;
        }

        var (caught, faults) = (0, 0);
        foreach (var mutant in mutants)
        {
            var end = await scratch.TryAsync(mutant, stop);
            await output.WriteLineAsync($"{mutant.Id}: {end.Say()}");
            caught += end.Kind == MutantEndKind.Caught ? 1 : 0;
            faults += end.Kind == MutantEndKind.Faulty ? 1 : 0;
        }

        await errors.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{Stopwatch.GetElapsedTime(began).TotalMinutes:F1} min"));
        await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{caught} of {mutants.Count} caught{(faults > 0 ? $", {faults} of the list do not compile" : "")}"));
        return caught == mutants.Count ? 0 : 1;
    }

    private static bool TryRead(IReadOnlyList<string> args, out IReadOnlyList<EngineMutant> mutants)
    {
        mutants = MutantList.All;
        for (var i = 0; i < args.Count; i += 2)
        {
            if (i + 1 == args.Count)
            {
                return false;
            }

            var (option, value) = (args[i], args[i + 1]);
            mutants = option switch
            {
                "--only" when value.Split(',') is var ids && ids.All(id => MutantList.All.Any(mutant => mutant.Id == id)) => [.. mutants.Where(mutant => ids.Contains(mutant.Id, StringComparer.Ordinal))],
                "--from" when int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var from) && from >= 1 => [.. mutants.Skip(from - 1)],
                _ => [],
            };
        }

        return mutants.Count > 0;
    }
}
