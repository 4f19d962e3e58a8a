using System.Globalization;
using System.Text.Json.Nodes;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace AirwayGuard.Rules.Tests.Schema;

/// <summary>A YAML document as an editor hands it to a schema: unquoted scalars are numbers, marks or nothing where they read so.</summary>
internal static class EditorJson
{
    private static readonly string[] Yes = ["yes", "Yes", "on", "On"];
    private static readonly string[] No = ["no", "No", "off", "Off"];

    /// <param name="yaml">A document that is YAML.</param>
    /// <param name="older">By YAML 1.1, in which an unquoted yes is a mark; else by the core schema of 1.2.</param>
    /// <returns>Null for what is empty.</returns>
    public static JsonNode? Of(string yaml, bool older)
    {
        var parser = new Parser(new StringReader(yaml.TrimStart('\uFEFF')));
        parser.MoveNext();
        while (parser.Current is StreamStart or DocumentStart)
        {
            parser.MoveNext();
        }

        return parser.Current is StreamEnd or DocumentEnd ? null : Read(parser, older);
    }

    private static JsonNode? Read(Parser parser, bool older)
    {
        switch (parser.Current)
        {
            case SequenceStart:
                var list = new JsonArray();
                parser.MoveNext();
                while (parser.Current is not SequenceEnd)
                {
                    list.Add(Read(parser, older));
                }

                parser.MoveNext();
                return list;
            case MappingStart:
                var map = new JsonObject();
                parser.MoveNext();
                while (parser.Current is not MappingEnd)
                {
                    var key = parser.Current is Scalar scalar ? scalar.Value : throw new NotSupportedException("A key is no scalar.");
                    parser.MoveNext();
                    map.Add(key, Read(parser, older));
                }

                parser.MoveNext();
                return map;
            default:
                var value = ((Scalar)parser.Current!).Style == ScalarStyle.Plain ? Plain(((Scalar)parser.Current).Value, older) : ((Scalar)parser.Current).Value;
                parser.MoveNext();
                return value;
        }
    }

    private static JsonNode? Plain(string text, bool older) => text switch
    {
        "" or "~" or "null" or "Null" or "NULL" => null,
        "true" or "True" or "TRUE" => true,
        "false" or "False" or "FALSE" => false,
        _ when older && Yes.Contains(text) => true,
        _ when older && No.Contains(text) => false,
        _ when text.Any(char.IsAsciiDigit) && decimal.TryParse(
            text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out var number) => number,
        _ => text,
    };
}
