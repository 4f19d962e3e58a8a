using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace AirwayGuard.Rules.Reading;

/// <summary>A tree as YAML text: the same tree gives the same text, and reading it gives the tree.</summary>
internal static class FlatText
{
    public static string Of(Node root)
    {
        using var text = new StringWriter { NewLine = "\n" };
        var emitter = new Emitter(text, new EmitterSettings(bestIndent: 2, bestWidth: int.MaxValue, isCanonical: false, maxSimpleKeyLength: 1024));
        emitter.Emit(new StreamStart());
        emitter.Emit(new DocumentStart(null, null, isImplicit: true));
        Write(root, emitter);
        emitter.Emit(new DocumentEnd(isImplicit: true));
        emitter.Emit(new StreamEnd());
        return text.ToString();
    }

    // Recurses as deep as a document may be nested.
    private static void Write(Node node, Emitter emitter)
    {
        switch (node)
        {
            case MapNode map:
                emitter.Emit(new MappingStart(AnchorName.Empty, TagName.Empty, isImplicit: true, MappingStyle.Block));
                foreach (var entry in map.Entries)
                {
                    emitter.Emit(Text(entry.Key));
                    Write(entry.Value, emitter);
                }

                emitter.Emit(new MappingEnd());
                break;
            case ListNode list:
                emitter.Emit(new SequenceStart(AnchorName.Empty, TagName.Empty, isImplicit: true, SequenceStyle.Block));
                foreach (var item in list.Items)
                {
                    Write(item, emitter);
                }

                emitter.Emit(new SequenceEnd());
                break;
            case TextNode text:
                emitter.Emit(Text(text.Text));
                break;
        }
    }

    // Quoted throughout, so that no text is taken for a mark of the format.
    private static Scalar Text(string text) => new(AnchorName.Empty, TagName.Empty, text, ScalarStyle.DoubleQuoted, isPlainImplicit: true, isQuotedImplicit: true);
}
