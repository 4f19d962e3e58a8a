namespace AirwayGuard.Benchmarks.Harness;

/// <summary>One question about cost, answered beside a baseline of the same run.</summary>
internal interface IBenchmark
{
    /// <summary>What it is called on the command line.</summary>
    string Name { get; }

    /// <summary>Measures, and adds its lines to the table.</summary>
    Task RunAsync(RunOptions options, ResultTable table);
}
