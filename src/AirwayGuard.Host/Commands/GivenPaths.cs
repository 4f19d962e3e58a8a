using System.CommandLine;

namespace AirwayGuard.Host.Commands;

/// <summary>Arguments that name files and folders.</summary>
internal static class GivenPaths
{
    /// <summary>An option that is not known would otherwise be taken for a file.</summary>
    public static void RefuseOptions(this Argument<string[]> paths, string verb) => paths.Validators.Add(given =>
    {
        foreach (var token in given.Tokens.Where(token => token.Value.Length > 1 && token.Value[0] == '-'))
        {
            given.AddError($"{token.Value} is no option of {verb}; write ./{token.Value} for a file of that name");
        }
    });
}
