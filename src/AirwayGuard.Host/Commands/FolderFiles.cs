using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Host.Commands;

/// <summary>
/// The .json and .ndjson files of a folder and of the folders in it, in the order of their paths. Linked folders are not walked
/// into: one inside is met at its own place, one that leads out is refused.
/// </summary>
internal static class FolderFiles
{
    private static readonly EnumerationOptions Everything = new() { AttributesToSkip = FileAttributes.None, IgnoreInaccessible = false };

    /// <returns>What was met, with its path within the folder; <see cref="FolderFile.Refused"/> says why it is not opened.</returns>
    public static IReadOnlyList<FolderFile> Of(string folder)
    {
        var given = new DirectoryInfo(folder);
        var root = (given.ResolveLinkTarget(returnFinalTarget: true) ?? given).FullName.TrimEnd('/');
        var met = new List<FolderFile>();
        var waiting = new Stack<string>([root.Length == 0 ? "/" : root]);
        while (waiting.TryPop(out var next))
        {
            try
            {
                foreach (var entry in new DirectoryInfo(next).EnumerateFileSystemInfos("*", Everything))
                {
                    Meet(entry, root, met, waiting);
                }
            }
            catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
            {
                met.Add(new FolderFile(Label(root, next), next, "the folder could not be opened for reading"));
            }
        }

        return [.. met.OrderBy(file => file.Label, StringComparer.Ordinal)];
    }

    private static void Meet(FileSystemInfo entry, string root, List<FolderFile> met, Stack<string> waiting)
    {
        if (entry is DirectoryInfo)
        {
            if (entry.LinkTarget is null)
            {
                waiting.Push(entry.FullName);
            }
            else if (!IsWithin(root, entry))
            {
                met.Add(new FolderFile(Label(root, entry.FullName), entry.FullName, "it is a link that leaves the folder"));
            }
        }
        else if (entry.Extension.Equals(".json", StringComparison.OrdinalIgnoreCase) || entry.Extension.Equals(".ndjson", StringComparison.OrdinalIgnoreCase))
        {
            var refused = FileKinds.Of(entry.FullName) == FileKind.Regular && IsWithin(root, entry) ? null : "it is no regular file of this folder";
            met.Add(new FolderFile(Label(root, entry.FullName), entry.FullName, refused));
        }
    }

    private static string Label(string root, string path) => path.Length <= root.Length + 1 ? Path.GetFileName(root) : path[(root.Length + 1)..];

    private static bool IsWithin(string root, FileSystemInfo entry)
    {
        var target = (entry.LinkTarget is null ? entry : entry.ResolveLinkTarget(returnFinalTarget: true) ?? entry).FullName;
        if (target != root && !target.StartsWith(root + "/", StringComparison.Ordinal))
        {
            return false;
        }

        // The target may itself lie behind a linked folder that leads out.
        for (var at = Path.GetDirectoryName(target); at is not null && at.Length > root.Length; at = Path.GetDirectoryName(at))
        {
            if (new DirectoryInfo(at).LinkTarget is not null)
            {
                return false;
            }
        }

        return true;
    }
}
