namespace AirwayGuard.TestKit.EngineMutants;

/// <summary>One small change to the judging that a tired hand could make, and that a test must notice.</summary>
/// <param name="Id">Kebab case, never used twice.</param>
/// <param name="File">Below the folder of Core, with forward slashes.</param>
/// <param name="Passage">Occurs exactly once in the file.</param>
/// <param name="Becomes">What stands in its place.</param>
/// <param name="Harm">What it would be for a patient or who cares for one, in one sentence.</param>
public sealed record EngineMutant(string Id, string File, string Passage, string Becomes, string Harm)
{
    /// <summary>Folder of Core below the repository's root.</summary>
    public const string Core = "src/AirwayGuard.Core";

    /// <summary>How often the passage stands in the source; anything but 1 is a fault of the list.</summary>
    public int Occurrences(string source)
    {
        var count = 0;
        for (var at = source.IndexOf(Passage, StringComparison.Ordinal); at >= 0; at = source.IndexOf(Passage, at + 1, StringComparison.Ordinal))
        {
            count++;
        }

        return count;
    }

    /// <summary>The source with the change made.</summary>
    public string Make(string source) => source.Replace(Passage, Becomes, StringComparison.Ordinal);
}
