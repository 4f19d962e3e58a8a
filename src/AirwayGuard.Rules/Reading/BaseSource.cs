using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Rules.Reading;

/// <summary>
/// Finds what <c>from</c> names: a shipped rule set, or a file in the folder of the document that names it. Nothing outside that folder
/// is opened, by a path or by a link.
/// </summary>
/// <param name="Folder">Null where the document was not read from a file: then only shipped sets are found.</param>
/// <param name="Chain">Documents on the way here, so that none starts from itself.</param>
internal sealed record BaseSource(string? Folder, IReadOnlyList<string> Chain)
{
    private const int MostBases = 4;

    public static BaseSource Shipped => new(null, []);

    public static BaseSource Beside(string file) => new(Path.GetDirectoryName(Path.GetFullPath(file)), [Path.GetFileName(file)]);

    /// <returns>Null with a fault where it cannot be used.</returns>
    public BaseDocument? Find(TextNode from, Faults faults)
    {
        var name = from.Text.Trim();
        if (Chain.Contains(name, StringComparer.Ordinal))
        {
            faults.Add(Codes.BaseInCircle, from.At, $"{Words.Quote(name)} starts from this document itself.");
            return null;
        }

        if (Chain.Count > MostBases)
        {
            faults.Add(Codes.BaseInCircle, from.At, $"More than {MostBases} documents start from one another.");
            return null;
        }

        if (Open(name, from, faults) is not { } utf8)
        {
            return null;
        }

        var own = new Faults(name);
        var whole = WholeDocument.Read(utf8, own, this with { Chain = [.. Chain, name] });
        if (whole is { Root: MapNode root } && !own.Any)
        {
            // What a base lacks by itself is told of it, not of the document that starts from it.
            RuleSetBuilder.Build(root, own, new Faults(name), "");
        }

        if (own.Any || whole?.Root is not MapNode map)
        {
            var first = own.InOrder()[0];
            faults.Add(Codes.BaseHasFaults, from.At, FormattableString.Invariant($"{Words.Quote(name)} has {own.Count} fault{(own.Count == 1 ? "" : "s")}, first {first.Code.Id} at line {first.Line}."));
            return null;
        }

        return new BaseDocument(WholeDocument.LabelOf(map), map, whole.Origins, whole.StartsFrom);
    }

    private ReadOnlyMemory<byte>? Open(string name, TextNode from, Faults faults)
    {
        if (ShippedRuleSets.Names.Contains(name, StringComparer.Ordinal))
        {
            return ShippedRuleSets.Bytes(name);
        }

        var near = Words.DidYouMean(name, ShippedRuleSets.Names);
        if (name.AsSpan().IndexOfAny('/', '\\', ':') >= 0 || name is "." or "..")
        {
            faults.Add(Codes.BaseElsewhere, from.At, $"from is {Words.Quote(name)}, which is a path.");
            return null;
        }

        if (Folder is null || !File.Exists(Path.Combine(Folder, name)))
        {
            faults.Add(Codes.BaseMissing, from.At, $"from is {Words.Quote(name)}; there is no such rule set{(Folder is null ? "" : ", and no such file beside this one")}.{near}");
            return null;
        }

        var file = new FileInfo(Path.Combine(Folder, name));
        if (file.LinkTarget is not null || FileKinds.Of(file.FullName) == FileKind.Other)
        {
            faults.Add(Codes.BaseElsewhere, from.At, $"{Words.Quote(name)} is a link or no regular file.");
            return null;
        }

        var (bytes, fault) = DocumentFile.Read(file.FullName);
        if (fault is { } refused)
        {
            faults.Add(refused, from.At, $"{Words.Quote(name)} could not be read.");
        }

        return fault is null ? bytes : null;
    }
}
