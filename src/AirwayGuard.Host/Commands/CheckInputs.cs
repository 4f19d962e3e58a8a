using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Worker.Checking;

namespace AirwayGuard.Host.Commands;

/// <summary>
/// Reads what <c>check</c> is given: regular files and folders of .json and .ndjson. Follows no link out of them, opens nothing a
/// document refers to.
/// </summary>
internal sealed class CheckInputs
{
    public List<CheckInput> Inputs { get; } = [];

    /// <summary>What could not be read at all.</summary>
    public List<Problem> Problems { get; } = [];

    public async Task ReadAsync(IReadOnlyList<string> paths, CancellationToken stop)
    {
        foreach (var path in paths)
        {
            if (path == "-")
            {
                await using var input = Console.OpenStandardInput();
                await ReadStreamAsync(input, "-", stop);
            }
            else if (Directory.Exists(path))
            {
                await ReadFolderAsync(path, stop);
            }
            else if (Refusal(path) is { } code)
            {
                Problems.Add(new Problem(code, Path.GetFileName(path), code == Codes.PathMissing ? "there is no such file or folder" : "it is no regular file"));
            }
            else
            {
                await ReadFileAsync(path, Path.GetFileName(path), stop);
            }
        }
    }

    private async Task ReadFolderAsync(string folder, CancellationToken stop)
    {
        var root = Path.GetFullPath(folder);
        var files = Directory.EnumerateFiles(root, "*", new EnumerationOptions { RecurseSubdirectories = true, AttributesToSkip = FileAttributes.None, MaxRecursionDepth = 20 })
            .Where(file => Path.GetExtension(file) is var ending
                && (ending.Equals(".json", StringComparison.OrdinalIgnoreCase) || ending.Equals(".ndjson", StringComparison.OrdinalIgnoreCase)))
            .Order(StringComparer.Ordinal)
            .ToArray();
        if (files.Length == 0)
        {
            Problems.Add(new Problem(Codes.NothingToRead, Path.GetFileName(root), "the folder holds no .json or .ndjson file"));
        }

        foreach (var file in files)
        {
            var label = Path.GetRelativePath(root, file).Replace('\\', '/');
            if (Refusal(file) is not null || LeavesTheFolder(root, file))
            {
                Problems.Add(new Problem(Codes.NotARegularFile, label, "it is no regular file of this folder"));
            }
            else
            {
                await ReadFileAsync(file, label, stop);
            }
        }
    }

    private async Task ReadFileAsync(string file, string label, CancellationToken stop)
    {
        try
        {
            await using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 16, useAsync: true);
            await ReadStreamAsync(stream, label, stop);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            Problems.Add(new Problem(Codes.NotARegularFile, label, "the file could not be opened for reading"));
        }
    }

    private async Task ReadStreamAsync(Stream stream, string label, CancellationToken stop)
    {
        var any = false;
        await foreach (var item in FhirDocuments.ReadAsync(stream, label, stop))
        {
            any = true;
            if (item.Problem is { } problem)
            {
                Problems.Add(problem);
            }
            else if (item.Arrival is { } arrival)
            {
                Inputs.Add(new CheckInput(arrival, item.Where));
            }
        }

        if (!any)
        {
            Problems.Add(new Problem(Codes.NotJson, label, "it holds no resource"));
        }
    }

    // A pipe or device would block or never end: only regular files are opened.
    private static DiagnosticCode? Refusal(string path) => FileKinds.Of(path) switch
    {
        FileKind.Regular => null,
        FileKind.Missing => Codes.PathMissing,
        _ => Codes.NotARegularFile,
    };

    private static bool LeavesTheFolder(string root, string file)
    {
        var info = new FileInfo(file);
        var target = info.ResolveLinkTarget(returnFinalTarget: true)?.FullName ?? info.FullName;
        return !target.StartsWith(root.TrimEnd('/') + "/", StringComparison.Ordinal) || HasLinkedParent(root, info.Directory);
    }

    private static bool HasLinkedParent(string root, DirectoryInfo? folder)
    {
        for (var at = folder; at is not null && at.FullName.Length > root.TrimEnd('/').Length; at = at.Parent)
        {
            if (at.LinkTarget is not null)
            {
                return true;
            }
        }

        return false;
    }
}
