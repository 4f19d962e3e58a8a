using System.Globalization;

namespace AirwayGuard.Storage.Schema;

/// <summary>One forward step of the schema.</summary>
/// <param name="Version">From 1, without gaps.</param>
internal sealed record Migration(int Version, string Name, string Sql)
{
    /// <summary>The program's own migrations, in order, from the embedded <c>NNNN-name.sql</c> files.</summary>
    public static IReadOnlyList<Migration> Embedded { get; } = [.. ReadEmbedded().OrderBy(m => m.Version)];

    private static IEnumerable<Migration> ReadEmbedded()
    {
        var assembly = typeof(Migration).Assembly;
        foreach (var resource in assembly.GetManifestResourceNames().Where(n => n.EndsWith(".sql", StringComparison.Ordinal)))
        {
            using var reader = new StreamReader(assembly.GetManifestResourceStream(resource)!);
            var file = resource[..^".sql".Length];
            var name = file[(file.LastIndexOf('.') + 1)..];
            yield return new Migration(int.Parse(name.AsSpan(0, 4), CultureInfo.InvariantCulture), name, reader.ReadToEnd());
        }
    }
}
