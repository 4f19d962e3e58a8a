using System.Text;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Rules.Reading;

/// <summary>The bytes of a document as text: at most 1 MB of strict UTF-8 without control characters; a byte order mark is passed over.</summary>
internal static class DocumentText
{
    public const int MostBytes = 1_048_576;

    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    public static bool TryDecode(ReadOnlySpan<byte> utf8, Faults faults, out string text)
    {
        text = "";
        if (utf8.Length > MostBytes)
        {
            faults.Add(Codes.RuleSetTooLarge, default, "The document is larger than 1 MB.");
            return false;
        }

        if (utf8 is [0xEF, 0xBB, 0xBF, ..])
        {
            utf8 = utf8[3..];
        }

        try
        {
            text = Strict.GetString(utf8);
        }
        catch (DecoderFallbackException wrong)
        {
            var before = Encoding.UTF8.GetString(utf8[..Math.Clamp(wrong.Index, 0, utf8.Length)]);
            faults.Add(Codes.RuleSetNotText, PlaceAfter(before), "The bytes here are not UTF-8.");
            return false;
        }

        for (var i = 0; i < text.Length; i++)
        {
            // The parser takes some of these for the end of the text, which would hide what follows.
            if (char.IsControl(text[i]) && text[i] is not ('\t' or '\n' or '\r'))
            {
                faults.Add(Codes.RuleSetNotText, PlaceAfter(text.AsSpan(0, i)), "There is a control character here.");
                return false;
            }
        }

        return true;
    }

    private static Place PlaceAfter(ReadOnlySpan<char> before)
    {
        var line = 1 + before.Count('\n');
        var lastBreak = before.LastIndexOf('\n');
        return new Place(line, before.Length - lastBreak);
    }
}
