using AirwayGuard.Benchmarks.Harness;
using AirwayGuard.TestKit.EngineMutants;

namespace AirwayGuard.Benchmarks.EngineMutants;

/// <summary>
/// A copy of the tree beside which nothing is touched: the sources, from which Core alone is compiled, and the built tests, which take the compiled Core.
/// The tests find documents and rule sets where they look for them, above the folder they run in.
/// </summary>
internal sealed class MutantScratch : IDisposable
{
    private const string Core = "AirwayGuard.Core";
    private const string Output = "bin/Release/net10.0";
    private static readonly TimeSpan LongestBuild = TimeSpan.FromMinutes(5), LongestTests = TimeSpan.FromMinutes(3);
    private static readonly string[] Left = ["bin", "obj", ".git"];
    private static readonly string[] Projects = [.. TestStage.All.Select(stage => stage.Project).Distinct(StringComparer.Ordinal)];

    private readonly ScratchFolder _folder = new();

    private string Root => _folder.Path;

    /// <summary>The first of the files needed that is not there; null where all are.</summary>
    public static string? Lacks() =>
        Projects.Select(project => $"tests/{project}/{Output}/{project}.dll").Prepend("AirwayGuard.sln").FirstOrDefault(file => !File.Exists(file));

    public static MutantScratch Copy()
    {
        var scratch = new MutantScratch();
        CopyFolder(".", scratch.Root, folder => !Left.Contains(Path.GetFileName(folder), StringComparer.Ordinal));
        foreach (var project in Projects)
        {
            CopyFolder($"tests/{project}/{Output}", scratch.Tests(project), _ => true);
        }

        return scratch;
    }

    /// <summary>Restores and compiles Core as it stands, and runs all tests: one that fails without a mutant would catch every mutant.</summary>
    /// <returns>What is wrong; null for nothing.</returns>
    public async Task<string?> PrepareAsync(CancellationToken stop)
    {
        if (await ChildProcess.RunAsync(Root, LongestBuild, ["restore", EngineMutant.Core, "--locked-mode", "-v", "q", "-p:Configuration=Release"], stop) is not (0, _) and var restored)
        {
            return $"Core cannot be restored: {restored?.Output}";
        }

        return await CompileAsync(stop) is { } fault ? $"Core does not compile: {fault}"
            : await FirstFailureAsync(stop) is { } failing ? $"Without any change a test fails: {failing}"
            : null;
    }

    public async Task<MutantEnd> TryAsync(EngineMutant mutant, CancellationToken stop)
    {
        var file = Path.Combine(Root, EngineMutant.Core, mutant.File);
        var source = await File.ReadAllTextAsync(file, stop);
        if (mutant.Occurrences(source) != 1)
        {
            return new MutantEnd(MutantEndKind.Faulty, $"its passage does not stand once in {mutant.File}");
        }

        // The tests see the sources as they are: what reads them must not catch what it has not judged by.
        await File.WriteAllTextAsync(file, mutant.Make(source), stop);
        var fault = await CompileAsync(stop);
        await File.WriteAllTextAsync(file, source, stop);
        return fault is not null ? new MutantEnd(MutantEndKind.Faulty, fault)
            : await FirstFailureAsync(stop) is { } test ? new MutantEnd(MutantEndKind.Caught, test)
            : new MutantEnd(MutantEndKind.Survived, "");
    }

    public void Dispose() => _folder.Dispose();

    private string Tests(string project) => Path.Combine(Root, "tests", project, Output);

    /// <returns>The first error; null where it compiled, and the tests have it.</returns>
    private async Task<string?> CompileAsync(CancellationToken stop)
    {
        // A change may well leave a variable unused, which is no fault of the list.
        string[] arguments =
        [
            "build", EngineMutant.Core, "--no-restore", "-c", "Release", "-v", "q", "-nologo", "-clp:NoSummary", "-nodeReuse:false",
            "-p:RunAnalyzers=false", "-p:EnforceCodeStyleInBuild=false", "-p:TreatWarningsAsErrors=false", "-p:UseSharedCompilation=false",
        ];
        if (await ChildProcess.RunAsync(Root, LongestBuild, arguments, stop) is not { } build)
        {
            return "the build did not end";
        }

        if (build.Exit != 0)
        {
            return build.Output.Split('\n').FirstOrDefault(line => line.Contains(": error ", StringComparison.Ordinal))?.Trim() ?? build.Output;
        }

        foreach (var project in Projects)
        {
            File.Copy(Path.Combine(Root, EngineMutant.Core, Output, Core + ".dll"), Path.Combine(Tests(project), Core + ".dll"), overwrite: true);
        }

        return null;
    }

    private async Task<string?> FirstFailureAsync(CancellationToken stop)
    {
        foreach (var stage in TestStage.All)
        {
            string[] arguments = [Path.Combine(Tests(stage.Project), stage.Project + ".dll"), "-noColor", "-noLogo", "-stopOnFail", .. stage.Select];
            var run = await ChildProcess.RunAsync(Root, LongestTests, arguments, stop);
            if (run is not (0, _))
            {
                return run is { } ended ? FailureIn(ended.Output) ?? $"{stage.Project}, which broke off" : $"{stage.Project}, which did not end";
            }
        }

        return null;
    }

    // A case of a rule set is told by its file and name, which the failure begins with; what differed follows.
    private static string? FailureIn(string output)
    {
        const string Failed = " [FAIL]", Case = ".yaml:";
        var lines = output.Split('\n').Select(line => line.Trim()).ToList();
        var at = lines.FindIndex(line => line.EndsWith(Failed, StringComparison.Ordinal));
        var named = at < 0 ? null : lines.Skip(at + 1).FirstOrDefault(line => line.Contains(Case, StringComparison.Ordinal));
        if (named is null)
        {
            return at < 0 ? null : lines[at][..^Failed.Length];
        }

        var ends = ((string[])[": expected ", ": unexpected ", ": came "]).Select(word => named.IndexOf(word, StringComparison.Ordinal)).Where(end => end >= 0);
        return $"a case: {named[..ends.DefaultIfEmpty(named.Length).Min()]}";
    }

    private static void CopyFolder(string from, string to, Func<string, bool> takes)
    {
        Directory.CreateDirectory(to);
        foreach (var file in Directory.EnumerateFiles(from))
        {
            File.Copy(file, Path.Combine(to, Path.GetFileName(file)));
        }

        foreach (var folder in Directory.EnumerateDirectories(from).Where(takes))
        {
            CopyFolder(folder, Path.Combine(to, Path.GetFileName(folder)), takes);
        }
    }
}
