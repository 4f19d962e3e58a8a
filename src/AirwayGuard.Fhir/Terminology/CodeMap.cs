using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;
using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Fhir.Terminology;

/// <summary>
/// What a site's codes mean: rows to concepts, answers to answers, device types to device kinds, unit texts to units. The
/// codes of AirwayGuard's own code systems are always known. Of two maps that speak of one code the later holds.
/// Immutable; safe for concurrent use.
/// </summary>
public sealed class CodeMap
{
    private const int LongestKey = 512;

    private readonly Dictionary<byte[], RowMapping?> _rows = new(Utf8Keys.Instance);
    private readonly Dictionary<string, MappedAnswer> _answers = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int> _kinds = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<MappedAnswer>> _answerTexts = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, Unit> _units = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, string> _systems = new(StringComparer.Ordinal);
    private readonly Dictionary<byte[], RowMapping?>.AlternateLookup<ReadOnlySpan<byte>> _rowsByBytes;
    private readonly Dictionary<byte[], byte[]>.AlternateLookup<ReadOnlySpan<byte>> _spellings =
        new Dictionary<byte[], byte[]>(Utf8Keys.Instance).GetAlternateLookup<ReadOnlySpan<byte>>();
    private readonly Dictionary<string, List<MappedAnswer>>.AlternateLookup<ReadOnlySpan<char>> _answersByText;

    private CodeMap(string sha256)
    {
        Sha256 = sha256;
        _rowsByBytes = _rows.GetAlternateLookup<ReadOnlySpan<byte>>();
        _answersByText = _answerTexts.GetAlternateLookup<ReadOnlySpan<char>>();
        foreach (var info in Concepts.Table)
        {
            if (info.IsInput && Concepts.TryFindInput(info.Code, out var concept))
            {
                _rows[Key(CodeSystems.AirwayCare, info.Code)] = new RowMapping(concept, Unit.None, 0, false, false);
            }
        }
    }

    /// <summary>Hash over every loaded map in order, lower-case hex: part of the basis of a finding.</summary>
    public string Sha256 { get; }

    /// <summary>Every row code of the loaded maps that has a meaning, AirwayGuard's own left out; in the order of system, then code.</summary>
    public IReadOnlyList<MappedRowCode> Rows { get; private set; } = [];

    /// <summary>Reads maps in their order; a fault in one leaves no map, and all faults are told.</summary>
    public static LoadedCodeMap Load(params IReadOnlyList<MapSource> sources)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var faults = new List<Problem>();
        var documents = new List<MapDocument>();
        foreach (var source in sources)
        {
            hash.AppendData(BitConverter.GetBytes((long)source.Json.Length));
            hash.AppendData(source.Json.Span);
            documents.Add(MapDocument.Read(source, faults));
        }

        var map = new CodeMap(Convert.ToHexStringLower(hash.GetHashAndReset()));
        foreach (var alias in documents.SelectMany(document => document.Systems))
        {
            map._systems[alias.Key] = alias.Value;
        }

        foreach (var spelling in CodeSystems.Spellings.Concat(map._systems))
        {
            map._spellings[Encoding.UTF8.GetBytes(spelling.Key)] = Encoding.UTF8.GetBytes(spelling.Value);
        }

        foreach (var entry in documents.SelectMany(document => document.Entries))
        {
            map.Add(entry);
        }

        map.Rows = [.. documents.SelectMany(document => document.Entries)
            .Select(entry => (System: map.Canonical(entry.System), entry.Code))
            .Distinct()
            .Select(code => map._rows.TryGetValue(Key(code.System, code.Code), out var row) && row is { } meant
                ? new MappedRowCode(code.System, code.Code, meant.Concept) : null)
            .OfType<MappedRowCode>()
            .OrderBy(row => row.System, StringComparer.Ordinal).ThenBy(row => row.Code, StringComparer.Ordinal)];
        return new LoadedCodeMap(faults.Count == 0 ? map : null, faults);
    }

    /// <summary>What a row's code means; false where no map knows it or a map leaves it out on purpose.</summary>
    /// <param name="system">The coding's system as sent, UTF-8.</param>
    /// <param name="code">The coding's code, UTF-8.</param>
    public bool TryRow(ReadOnlySpan<byte> system, ReadOnlySpan<byte> code, out RowMapping row)
    {
        row = default;
        if (system.IsEmpty || code.IsEmpty || system.Length + code.Length + 128 > LongestKey)
        {
            return false;
        }

        Span<byte> key = stackalloc byte[LongestKey];
        var found = _rowsByBytes.TryGetValue(key[..Compose(system, code, key)], out var mapping);
        row = mapping.GetValueOrDefault();
        return found && mapping.HasValue;
    }

    /// <summary>True where a map leaves the row out on purpose (equivalence unmatched).</summary>
    public bool IsIgnored(string system, string code) =>
        _rows.TryGetValue(Key(Canonical(system), code), out var mapping) && !mapping.HasValue;

    /// <summary>Writes <c>system|code</c> in its one spelling; the length written. The buffer must hold both and 128 bytes more.</summary>
    public int Compose(ReadOnlySpan<byte> system, ReadOnlySpan<byte> code, Span<byte> into)
    {
        var length = 0;
        if (system[0] is >= (byte)'0' and <= (byte)'2')
        {
            "urn:oid:"u8.CopyTo(into);
            length = 8;
        }

        system.CopyTo(into[length..]);
        length += system.Length;
        if (_spellings.TryGetValue(into[..length], out var meant))
        {
            meant.CopyTo(into);
            length = meant.Length;
        }

        into[length++] = (byte)'|';
        code.CopyTo(into[length..]);
        return length + code.Length;
    }

    /// <summary>An answer that the concept lists, by its coding.</summary>
    public bool TryAnswer(Concept concept, string? system, string code, out int answer)
    {
        answer = -1;
        if (string.IsNullOrEmpty(system))
        {
            return Answers.TryFind(concept, code, out answer);
        }

        var canonical = Canonical(system);
        if (canonical is CodeSystems.AirwayCareAnswer or CodeSystems.DeviceKind)
        {
            return Answers.TryFind(concept, code, out answer);
        }

        var isMapped = _answers.TryGetValue(canonical + "|" + code, out var mapped) && mapped.Holds(concept);
        answer = isMapped ? mapped.Answer : -1;
        return isMapped;
    }

    /// <summary>An answer that the concept lists, by the whole text: its code, or a code or display that a map gives it. Case is ignored.</summary>
    public bool TryAnswerText(Concept concept, ReadOnlySpan<char> text, out int answer)
    {
        text = text.Trim();
        foreach (var listed in Concepts.Info(concept).Answers)
        {
            if (text.Equals(listed, StringComparison.OrdinalIgnoreCase))
            {
                answer = Answers.Of(listed);
                return true;
            }
        }

        if (_answersByText.TryGetValue(text, out var candidates))
        {
            foreach (var candidate in candidates)
            {
                if (candidate.Holds(concept))
                {
                    answer = candidate.Answer;
                    return true;
                }
            }
        }

        answer = -1;
        return false;
    }

    /// <summary>The kind of a device by a coding of its type.</summary>
    public bool TryDeviceKind(string? system, string code, out int kind)
    {
        kind = -1;
        if (string.IsNullOrEmpty(system))
        {
            return false;
        }

        var canonical = Canonical(system);
        return canonical == CodeSystems.DeviceKind
            ? Answers.TryFind(Concepts.DeviceKind, code, out kind)
            : _kinds.TryGetValue(canonical + "|" + code, out kind);
    }

    /// <summary>The unit of a printed text: as <see cref="Units.FromText"/>, else as a map says.</summary>
    public Unit UnitOf(string text)
    {
        var unit = Units.FromText(text);
        return unit == Unit.Unknown && _units.TryGetValue(text.Trim(), out var mapped) ? mapped : unit;
    }

    /// <summary>The one spelling of a system, the aliases of loaded NamingSystems included.</summary>
    [SuppressMessage("Design", "CA1055", Justification = "A code system's address is compared as text.")]
    public string Canonical(string system)
    {
        var canonical = CodeSystems.Canonical(system);
        return _systems.GetValueOrDefault(canonical, canonical);
    }

    /// <summary>Every spelling under which rows of a system may be stored: the one meant first, then its OID and the aliases of loaded NamingSystems.</summary>
    public IEnumerable<string> SpellingsOf(string system) =>
        CodeSystems.Spellings.Concat(_systems).Where(spelling => spelling.Value == system).Select(spelling => spelling.Key)
            .Order(StringComparer.Ordinal).Prepend(system).Distinct(StringComparer.Ordinal);

    private static byte[] Key(string system, string code) => Encoding.UTF8.GetBytes(system + "|" + code);

    private void Add(MapEntry entry)
    {
        var system = Canonical(entry.System);
        switch (entry.Target)
        {
            case MapTarget.Row:
                _rows[Key(system, entry.Code)] = entry.Row;
                break;
            case MapTarget.Unit:
                _units[entry.Code] = entry.Unit;
                break;
            case MapTarget.DeviceKind when entry.Answer >= 0:
                _kinds[system + "|" + entry.Code] = entry.Answer;
                break;
            case MapTarget.Answer when entry.Answer >= 0:
                var answer = new MappedAnswer(entry.Answer, entry.AnswerTo);
                _answers[system + "|" + entry.Code] = answer;
                AddText(entry.Code, answer);
                AddText(entry.Display, answer);
                break;
            default:
                _answers.Remove(system + "|" + entry.Code);
                break;
        }
    }

    // The later map goes first where two give one text different answers of one concept.
    private void AddText(string text, MappedAnswer answer)
    {
        if (text.Length > 0)
        {
            if (!_answerTexts.TryGetValue(text, out var answers))
            {
                _answerTexts[text] = answers = [];
            }

            answers.Insert(0, answer);
        }
    }
}
