using System.Runtime.InteropServices;
using System.Text;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// An Observation as charted, before anything is made of it. Both front ends fill it: the row reader with stretches of the
/// body itself, the SDK's parse with stretches of a text of its own. Reused from row to row.
/// </summary>
internal sealed class ObservationRow
{
    private ReadOnlyMemory<byte> _text;
    private byte[] _own = new byte[1024];
    private int _ownLength;

    public Slice Id, Status, Subject, Encounter, Device, IdentifierSystem, IdentifierValue;
    public EffectiveForm Effective;
    public Slice From, To;
    public bool IsTestData, HasModifier;

    public List<ChartedValue> Values { get; } = [];

    public List<ChartedCoding> Codings { get; } = [];

    public List<Slice> PartOf { get; } = [];

    public List<Slice> HasMember { get; } = [];

    public List<Slice> Focus { get; } = [];

    public List<Slice> BasedOn { get; } = [];

    /// <summary>Empties the row; stretches then point into the body.</summary>
    public void Begin(ReadOnlyMemory<byte> body)
    {
        Begin();
        _text = body;
    }

    /// <summary>Empties the row; stretches then point into text that <see cref="Add"/> collects.</summary>
    public void Begin()
    {
        _text = default;
        _ownLength = 0;
        Id = Status = Subject = Encounter = Device = IdentifierSystem = IdentifierValue = From = To = default;
        Effective = EffectiveForm.None;
        IsTestData = HasModifier = false;
        Values.Clear();
        Codings.Clear();
        PartOf.Clear();
        HasMember.Clear();
        Focus.Clear();
        BasedOn.Clear();
    }

    public ReadOnlySpan<byte> this[Slice slice] => _text.IsEmpty
        ? _own.AsSpan(slice.Start, slice.Length)
        : _text.Span.Slice(slice.Start, slice.Length);

    public string Text(Slice slice) => Encoding.UTF8.GetString(this[slice]);

    public ReadOnlySpan<ChartedCoding> In(Stretch stretch) =>
        CollectionsMarshal.AsSpan(Codings).Slice(stretch.From, stretch.Count);

    public Slice Add(string? text)
    {
        if (string.IsNullOrEmpty(text))
        {
            return default;
        }

        var need = Encoding.UTF8.GetByteCount(text);
        if (_own.Length < _ownLength + need)
        {
            Array.Resize(ref _own, Math.Max(_own.Length * 2, _ownLength + need));
        }

        var slice = new Slice(_ownLength, Encoding.UTF8.GetBytes(text, _own.AsSpan(_ownLength)));
        _ownLength += slice.Length;
        return slice;
    }

    /// <summary>Says what it is, not what it holds.</summary>
    public override string ToString() => "ObservationRow";
}

/// <summary>Which form of time an Observation carries.</summary>
internal enum EffectiveForm : byte
{
    None, Instant, Period, Other,
}
