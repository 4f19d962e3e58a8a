using AirwayGuard.Benchmarks.EngineMutants;
using AirwayGuard.Benchmarks.Harness;
using AirwayGuard.Benchmarks.Hooks;
using AirwayGuard.Benchmarks.Intake;
using AirwayGuard.Benchmarks.Judging;
using AirwayGuard.Benchmarks.Loading;
using AirwayGuard.Benchmarks.Mutation;
using AirwayGuard.Benchmarks.Orders;
using AirwayGuard.Benchmarks.Reliability;
using AirwayGuard.Benchmarks.RowReading;
using AirwayGuard.Benchmarks.Simulation;
using AirwayGuard.Benchmarks.Year;

if (args is [SimulateCommand.Name, ..])
{
    return await SimulateCommand.RunAsync(args[1..], Console.Out, Console.Error);
}

if (args is [YearCommand.Name, ..])
{
    return await YearCommand.RunAsync(args[1..], Console.Out, Console.Error);
}

if (args is [KillsCommand.Name, ..])
{
    return await KillsCommand.RunAsync(args[1..], Console.Out, Console.Error);
}

if (args is [ReliabilityCommand.Name, ..])
{
    return await ReliabilityCommand.RunAsync(args[1..], Console.Out, Console.Error);
}

if (args is [SandboxProcess.Name])
{
    return await SandboxProcess.ServeAsync(Console.In, Console.Out);
}

if (args is [HooksCommand.Name, ..])
{
    return await HooksCommand.RunAsync(args[1..], Console.Out, Console.Error);
}

if (args is [BaselineProcess.Name])
{
    return await BaselineProcess.ServeAsync(Console.In, Console.Out);
}

if (args is [CallersProcess.Name])
{
    return await CallersProcess.ServeAsync(Console.In, Console.Out);
}

if (args is [MutateCommand.Name, ..])
{
    return await MutateCommand.RunAsync(args[1..], Console.Out, Console.Error);
}

if (args is [MutantsCommand.Name, ..])
{
    return await MutantsCommand.RunAsync(args[1..], Console.Out, Console.Error);
}

IBenchmark[] all = [new RowReaderBenchmark(), new JudgingBenchmark(), new LoadingBenchmark(), new QuestionBenchmark(), new IntakeBenchmark(), new OrderBenchmark()];
if (!RunOptions.TryParse(args, [.. all.Select(benchmark => benchmark.Name)], out var options, out var problem))
{
    await Console.Error.WriteLineAsync(problem);
    return 2;
}

var table = new ResultTable();
foreach (var benchmark in all.Where(benchmark => options.Names.Contains(benchmark.Name, StringComparer.Ordinal)))
{
    await Console.Error.WriteLineAsync($"{benchmark.Name} …");
    await benchmark.RunAsync(options, table);
}

Console.Write(table.ToMarkdown());
return 0;
