using System.Diagnostics;

namespace AirwayGuard.Conventions.Tests;

/// <summary>The working tree as a contributor sees it: what git tracks or would track, else the folder less build output.</summary>
internal static class Repository
{
    private static readonly string[] BuildOutput = ["bin", "obj", ".git", "TestResults", "BenchmarkDotNet.Artifacts", ".vs", ".idea", ".vscode", "node_modules"];

    public static string Root { get; } = FindRoot();

    /// <summary>Every file, by its path from the root with forward slashes, in ordinal order.</summary>
    public static IReadOnlyList<string> Files { get; } = [.. (ByGit() ?? ByWalking()).Order(StringComparer.Ordinal)];

    private static readonly HashSet<string> Known = new(Files, StringComparer.Ordinal);
    private static readonly HashSet<string> KnownFolders = new(Files.SelectMany(Folders), StringComparer.Ordinal);

    /// <summary>Names at the top of the repository.</summary>
    public static IReadOnlyList<string> TopLevel { get; } =
        [.. Files.Select(file => file.Split('/')[0]).Distinct(StringComparer.Ordinal)];

    public static IEnumerable<string> CSharp(params string[] folders) => Under(folders).Where(file => file.EndsWith(".cs", StringComparison.Ordinal));

    public static IEnumerable<string> Under(params string[] folders) =>
        Files.Where(file => folders.Any(folder => file.StartsWith(folder + "/", StringComparison.Ordinal)));

    /// <summary>True for a file or folder, given by its path from the root.</summary>
    public static bool Has(string path) => Known.Contains(path) || KnownFolders.Contains(path.TrimEnd('/'));

    public static string Read(string file) => File.ReadAllText(Path.Combine(Root, file));

    /// <summary>True for files that people read and write as text.</summary>
    public static bool IsText(string file)
    {
        Span<byte> start = stackalloc byte[4096];
        using var stream = File.OpenRead(Path.Combine(Root, file));
        var count = stream.ReadAtLeast(start, start.Length, throwOnEndOfStream: false);
        return !start[..count].Contains((byte)0);
    }

    private static IEnumerable<string> Folders(string file)
    {
        for (var cut = file.LastIndexOf('/'); cut > 0; cut = file.LastIndexOf('/', cut - 1))
        {
            yield return file[..cut];
        }
    }

    private static string FindRoot()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "AirwayGuard.sln")))
            {
                return folder.FullName;
            }
        }

        throw new DirectoryNotFoundException("No folder above the tests holds AirwayGuard.sln.");
    }

    /// <summary>Null where git is missing, or the folder is no working tree of its own (an unpacked archive).</summary>
    private static List<string>? ByGit()
    {
        if (!Path.Exists(Path.Combine(Root, ".git")))
        {
            return null;
        }

        var start = new ProcessStartInfo("git", ["ls-files", "-z", "--cached", "--others", "--exclude-standard"])
        {
            WorkingDirectory = Root,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            UseShellExecute = false,
        };
        try
        {
            using var git = Process.Start(start)!;
            git.ErrorDataReceived += static (_, _) => { };
            git.BeginErrorReadLine();
            var names = git.StandardOutput.ReadToEnd();
            git.WaitForExit();
            return git.ExitCode == 0
                ? [.. names.Split('\0', StringSplitOptions.RemoveEmptyEntries).Where(name => File.Exists(Path.Combine(Root, name)))]
                : null;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            // No git on this machine: the folder is walked instead.
            return null;
        }
    }

    private static IEnumerable<string> ByWalking()
    {
        var waiting = new Stack<string>([Root]);
        while (waiting.TryPop(out var folder))
        {
            foreach (var file in Directory.EnumerateFiles(folder))
            {
                yield return Path.GetRelativePath(Root, file).Replace('\\', '/');
            }

            foreach (var inner in Directory.EnumerateDirectories(folder))
            {
                if (!BuildOutput.Contains(Path.GetFileName(inner), StringComparer.Ordinal))
                {
                    waiting.Push(inner);
                }
            }
        }
    }
}
