using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Rules.Reading;
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
                Problems.Add(new Problem(code, Label(path), code == Codes.PathMissing ? "there is no such file or folder" : "it is no regular file"));
            }
            else
            {
                await ReadFileAsync(path, Label(path), stop);
            }
        }
    }

    private async Task ReadFolderAsync(string folder, CancellationToken stop)
    {
        var files = FolderFiles.Of(folder);
        if (files.Count == 0)
        {
            Problems.Add(new Problem(Codes.NothingToRead, Label(folder), "the folder holds no .json or .ndjson file"));
        }

        foreach (var file in files)
        {
            if (file.Refused is { } why)
            {
                Problems.Add(new Problem(Codes.NotARegularFile, file.Label, why));
            }
            else
            {
                await ReadFileAsync(file.Path, file.Label, stop);
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
        var (any, references, read) = (false, new BundleReferences(), new List<DocumentItem>());
        try
        {
            await foreach (var item in FhirDocuments.ReadAsync(stream, label, stop))
            {
                any = true;
                if (item.Problem is { } problem)
                {
                    Problems.Add(problem);
                }
                else
                {
                    references.Note(item);
                    read.Add(item);
                }
            }
        }
        finally
        {
            // An entry may name one that stands after it; what was read before a fault counts too.
            Inputs.AddRange(read.Select(item => (item.Where, Arrival: references.Resolve(item))).Where(item => item.Arrival is not null)
                .Select(item => new CheckInput(item.Arrival!, item.Where)));
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

    // The name alone: where a file lies on this machine is no part of a report.
    private static string Label(string path) => Path.GetFileName(Path.TrimEndingDirectorySeparator(path)) is { Length: > 0 } name ? name : "PATH";
}
