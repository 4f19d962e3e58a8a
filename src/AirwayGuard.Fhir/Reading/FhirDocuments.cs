using System.Runtime.CompilerServices;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// Splits a file or stream into resources: one resource, a Bundle, or NDJSON, told apart by content. A Bundle is read entry by
/// entry, so that its size does not matter; an entry or line may have 5 MB. Never throws on content.
/// </summary>
public static class FhirDocuments
{
    /// <param name="stream">UTF-8; read to its end, not disposed.</param>
    /// <param name="label">What to call it: the file's name, or <c>-</c>.</param>
    public static IAsyncEnumerable<DocumentItem> ReadAsync(Stream stream, string label, CancellationToken stop = default) =>
        ReadAsync(stream, label, new ValueScanner(isBundle: false), stop);

    private static async IAsyncEnumerable<DocumentItem> ReadAsync(
        Stream stream, string label, ValueScanner scan, [EnumeratorCancellation] CancellationToken stop)
    {
        using var window = new StreamWindow(stream);
        await window.MoreAsync(stop);
        while (window.Length < 3 && await window.MoreAsync(stop))
        {
        }

        window.Drop(window.Span.StartsWith("\uFEFF"u8) ? 3 : 0);
        if (!scan.IsBundle && label.EndsWith(".ndjson", StringComparison.OrdinalIgnoreCase))
        {
            await foreach (var item in ReadLinesAsync(window, label, 1, stop))
            {
                yield return item;
            }

            yield break;
        }

        while (true)
        {
            var found = scan.Next(window);
            if (found == Scanned.NeedsMore)
            {
                await window.MoreAsync(stop);
            }
            else if (found == Scanned.Entry)
            {
                yield return DocumentEntry.Read(scan.Bytes, $"{label}#entry {scan.EntryNumber}");
            }
            else if (found == Scanned.EntryTooLarge)
            {
                yield return Trouble(Codes.TooLarge, $"{label}#entry {scan.EntryNumber}");
            }
            else if (found == Scanned.Malformed)
            {
                await foreach (var item in AfterFaultAsync(window, scan, label, stop))
                {
                    yield return item;
                }

                yield break;
            }
            else
            {
                break;
            }
        }

        await foreach (var item in AfterValueAsync(window, scan, label, stop))
        {
            yield return item;
        }
    }

    // A first line that is broken must not hide the resources on the lines after it.
    private static async IAsyncEnumerable<DocumentItem> AfterFaultAsync(
        StreamWindow window, ValueScanner scan, string label, [EnumeratorCancellation] CancellationToken stop)
    {
        if (scan.IsBundle || scan.IsTooLarge || scan.HasDropped)
        {
            yield return Trouble(scan.IsTooLarge ? Codes.TooLarge : Codes.NotJson, label);
            yield break;
        }

        while (!IsSecondLineKnown(window.Span) && window.Length < JsonCheck.LargestEntry && await window.MoreAsync(stop))
        {
        }

        var newline = window.Span.IndexOf((byte)'\n');
        if (newline < 0 || !window.Span[newline..].TrimStart(" \t\r\n"u8).StartsWith("{"u8))
        {
            yield return NotJson(window, label);
            yield break;
        }

        await foreach (var item in ReadLinesAsync(window, label, 1, stop))
        {
            yield return item;
        }
    }

    private static bool IsSecondLineKnown(ReadOnlySpan<byte> bytes)
    {
        var newline = bytes.IndexOf((byte)'\n');
        return newline >= 0 && !bytes[newline..].TrimStart(" \t\r\n"u8).IsEmpty;
    }

    private static async IAsyncEnumerable<DocumentItem> AfterValueAsync(
        StreamWindow window, ValueScanner scan, string label, [EnumeratorCancellation] CancellationToken stop)
    {
        // What follows the first value decides: nothing, lines, or bytes that do not belong there.
        while (window.Span.Trim(" \t\r\n"u8).IsEmpty && window.Length < JsonCheck.LargestEntry && await window.MoreAsync(stop))
        {
        }

        var rest = window.Span.TrimStart(" \t\r"u8);
        var isAlone = rest.Trim(" \t\r\n"u8).IsEmpty;
        var areLines = !isAlone && rest[0] == (byte)'\n';
        var line = scan.FirstLine;
        if (!isAlone && !areLines)
        {
            yield return Trouble(Codes.NotJson, label);
            yield break;
        }

        if (!scan.IsBundle)
        {
            var where = areLines ? $"{label}:{line}" : label;
            if (scan.IsTooLarge || !scan.IsObject)
            {
                yield return Trouble(scan.IsTooLarge ? Codes.TooLarge : Codes.NotAResource, where);
            }
            else
            {
                await foreach (var item in OfValueAsync(scan.Bytes, where, stop))
                {
                    yield return item;
                }
            }
        }

        if (areLines)
        {
            await foreach (var item in ReadLinesAsync(window, label, scan.LastLine, stop))
            {
                yield return item;
            }
        }
    }

    private static async IAsyncEnumerable<DocumentItem> ReadLinesAsync(
        StreamWindow window, string label, int line, [EnumeratorCancellation] CancellationToken stop)
    {
        var isTooLarge = false;
        var isAny = false;
        while (true)
        {
            var newline = window.Span.IndexOf((byte)'\n');
            if (newline < 0 && !window.IsAtEnd)
            {
                if (window.Length > JsonCheck.LargestEntry)
                {
                    isTooLarge = true;
                    window.Drop(window.Length);
                }

                await window.MoreAsync(stop);
                continue;
            }

            var length = newline < 0 ? window.Length : newline;
            var bytes = window.Span[..length].Trim(" \t\r\n"u8).ToArray();
            window.Drop(newline < 0 ? length : length + 1);
            if (isTooLarge || bytes.Length > JsonCheck.LargestEntry)
            {
                isAny = true;
                yield return Trouble(Codes.TooLarge, $"{label}:{line}");
            }
            else if (bytes.Length > 0)
            {
                isAny = true;
                await foreach (var item in OfValueAsync(bytes, $"{label}:{line}", stop))
                {
                    yield return item;
                }
            }

            isTooLarge = false;
            line++;
            if (newline < 0)
            {
                break;
            }
        }

        if (!isAny && line <= 2)
        {
            yield return NotJson(window, label);
        }
    }

    private static async IAsyncEnumerable<DocumentItem> OfValueAsync(byte[] bytes, string where, [EnumeratorCancellation] CancellationToken stop)
    {
        if (ResourcePeek.Of(bytes).Type != "Bundle")
        {
            yield return bytes.Length > JsonCheck.LargestEntry
                ? Trouble(Codes.TooLarge, where)
                : DocumentEntry.OfResource(bytes, where, null);
            yield break;
        }

        using var bundle = new MemoryStream(bytes);
        await foreach (var item in ReadAsync(bundle, where, new ValueScanner(isBundle: true), stop))
        {
            yield return item;
        }
    }

    // The two mistakes that a person makes most are told apart.
    private static DocumentItem NotJson(StreamWindow window, string where)
    {
        var bytes = window.Span.TrimStart(" \t\r\n"u8);
        return bytes.IsEmpty ? new(where, null, new Problem(Codes.NotJson, where, "There is nothing in it."))
            : bytes[0] == (byte)'<' ? new(where, null, new Problem(Codes.NotJson, where, "It begins as XML does, and only FHIR JSON is read."))
            : Trouble(Codes.NotJson, where);
    }

    private static DocumentItem Trouble(DiagnosticCode code, string where) =>
        new(where, null, new Problem(code, where, code == Codes.TooLarge
            ? "An entry or line has more than 5 MB." : code == Codes.NotAResource
            ? "The JSON is no object." : "The bytes are not well-formed JSON."));
}
