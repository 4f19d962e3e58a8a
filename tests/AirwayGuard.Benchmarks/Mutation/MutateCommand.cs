using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using AirwayGuard.TestKit.Mutation;

namespace AirwayGuard.Benchmarks.Mutation;

/// <summary>
/// <c>mutate [--inputs N] [--from SEED] [--kind NAME] [--into FOLDER]</c>: changes real inputs and puts each through what reads it. A seed is one
/// input; one that breaks something is told with its seed and written into the folder. Exit 0 if all held, 1 if not, 2 for wrong usage.
/// </summary>
internal static class MutateCommand
{
    public const string Name = "mutate";
    private const string Samples = "fhir-samples";
    private const string Usage = "Usage: mutate [--inputs 1 to 1000000000, default 100000] [--from 0 to 1000000000000, default 1] [--kind NAME, default all] [--into FOLDER, default the temporary one]";
    private const int MostTold = 20, Chunk = 2_000;

    /// <summary>Bytes that the heap may have grown by in the end, whatever the number of inputs.</summary>
    private const long MostKept = 64 * 1024 * 1024;

    public static async Task<int> RunAsync(IReadOnlyList<string> args, TextWriter output, TextWriter errors)
    {
        if (!MutateOptions.TryRead(args, out var options))
        {
            await errors.WriteLineAsync(Usage);
            return 2;
        }

        if (!Directory.Exists(Samples))
        {
            await errors.WriteLineAsync($"{Samples} is not there: run this from the repository's root.");
            return 2;
        }

        var inputs = MutationInputs.Load(Samples);
        var kinds = new MutationRun(inputs).Kinds;
        if (options.Kind is not null && !kinds.Contains(options.Kind, StringComparer.Ordinal))
        {
            await errors.WriteLineAsync($"Kinds: {string.Join(", ", kinds)}.");
            return 2;
        }

        await errors.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"from seed {options.From}"));
        var (sums, began) = (new MutationSums(kinds), Stopwatch.GetTimestamp());
        var held = HeldAfterWarmUp(inputs, options);
        using var asked = PosixSignalRegistration.Create(PosixSignal.SIGTERM, _ => errors.WriteLine("ended; in hand were the seeds " + sums.InHand));
        Parallel.For(0, (options.Inputs + Chunk - 1) / Chunk, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, () => new MutationRun(inputs), (chunk, _, run) =>
        {
            var (first, last) = (options.From + (chunk * Chunk), options.From + Math.Min(options.Inputs, (chunk + 1) * Chunk));
            for (var seed = first; seed < last; seed++)
            {
                sums.Begin(seed);
                var at = Stopwatch.GetTimestamp();
                var result = options.Kind is null ? run.Run(seed) : run.Run(seed, options.Kind);
                if (sums.Add(result, Stopwatch.GetElapsedTime(at)) is <= MostTold)
                {
                    Tell(result, options.Into, output);
                }
            }

            return run;
        }, _ => { });

        var kept = GC.GetTotalMemory(forceFullCollection: true) - held;
        await errors.WriteLineAsync(sums.ToTable());
        if (kept > MostKept)
        {
            await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"The heap has grown by {kept / 1024} KiB; allowed are {MostKept / 1024}."));
        }

        await output.WriteLineAsync(string.Create(
            CultureInfo.InvariantCulture,
            $"{options.Inputs} inputs from {options.From}: {sums.Failed} broke something; heap {kept / 1024} KiB more than before, {Stopwatch.GetElapsedTime(began).TotalSeconds:F1} s, {Environment.CpuUsage.TotalTime.TotalSeconds:F1} s of CPU"));
        return sums.Failed == 0 && kept <= MostKept ? 0 : 1;
    }

    private static long HeldAfterWarmUp(MutationInputs inputs, MutateOptions options)
    {
        var run = new MutationRun(inputs);
        for (var seed = options.From; seed < options.From + Math.Min(options.Inputs, Chunk); seed++)
        {
            run.Run(seed);
        }

        return GC.GetTotalMemory(forceFullCollection: true);
    }

    private static void Tell(MutationResult result, string into, TextWriter output)
    {
        Directory.CreateDirectory(into);
        var file = Path.Combine(into, string.Create(CultureInfo.InvariantCulture, $"{result.Kind.Replace(' ', '-')}-{result.Seed}.{result.Ending}"));
        File.WriteAllBytes(file, result.Input.ToArray());
        lock (output)
        {
            output.WriteLine($"{result}\n  again: mutate --inputs 1 --from {result.Seed}; the input is in {file}");
        }
    }
}
