using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Reading;

/// <summary>Writes down what one resource says: facts, links and problems, with the names of what they are about. Reused.</summary>
internal sealed class Scribe(CodeMap map)
{
    private readonly byte[] _name = new byte[ReferenceName.Longest];
    private int _nameLength;
    private IEntityInterner _entities = new EntityTable();
    private string _source = "";
    private string _id = "";

    public CodeMap Map => map;

    public Core.Ports.Reading Into { get; private set; } = new();

    public Entity Self => Into.Self;

    /// <summary>Where problems lie: <c>Type/id</c>, or the source's label for a resource without id.</summary>
    public string Where => _nameLength > 0 ? Encoding.UTF8.GetString(_name, 0, _nameLength) : _source;

    /// <summary>Label of the source the resource came from: a server's address, or a file.</summary>
    public string Source => _source;

    public void Begin(IEntityInterner entities, Core.Ports.Reading into, string source, string? id)
    {
        _entities = entities;
        Into = into;
        _source = source;
        _id = id ?? "";
        _nameLength = 0;
    }

    /// <summary>Names the resource itself. Without an id of its own it has the arrival's, else the name of the place it was read from.</summary>
    public void IsAbout(ReadOnlySpan<byte> type, ReadOnlySpan<byte> id)
    {
        id = id.IsEmpty ? Encoding.UTF8.GetBytes(_id) : id;
        _nameLength = ReferenceName.TryCompose(type, id, _name, out var name) ? name.Length : 0;
        Into.Self = _entities.Intern(ReferenceName.KindOf(type), _nameLength > 0 ? name : Encoding.UTF8.GetBytes(_source));
    }

    public Entity Intern(EntityKind kind, ReadOnlySpan<byte> name) => _entities.Intern(kind, name);

    /// <summary>The target of a literal reference; none where it names none.</summary>
    public Entity Target(ReadOnlySpan<byte> reference, ReadOnlySpan<byte> expected)
    {
        Span<byte> scratch = stackalloc byte[ReferenceName.Longest];
        return ReferenceName.TryRead(reference, expected, scratch, out var kind, out var name) ? _entities.Intern(kind, name) : default;
    }

    /// <summary>The target of a literal reference if it is of one of the kinds.</summary>
    public Entity Target(string? reference, ReadOnlySpan<byte> expected, params ReadOnlySpan<EntityKind> kinds)
    {
        var target = reference is null ? default : Target(Encoding.UTF8.GetBytes(reference), expected);
        return kinds.Contains(target.Kind) ? target : default;
    }

    public void Problem(DiagnosticCode code, string why) => Into.Problems.Add(new Problem(code, Where, why));

    /// <summary>The resource could not be read at all; nothing of it is kept.</summary>
    public void Unreadable(DiagnosticCode code, string why)
    {
        Problem(code, why);
        Into.Readable = false;
        Into.Facts.Clear();
        Into.Links.Clear();
    }

    public void Fact(in Frame frame, ushort ordinal, Concept concept, FactValue value, FactMarks marks = FactMarks.None) =>
        Into.Facts.Add(new Fact(
            new FactId(default, ordinal), frame.About, frame.Encounter, frame.Device, frame.Act, Self, frame.Group, concept,
            marks | frame.Marks, frame.OffsetMinutes, frame.From, frame.To, default, Position.Never, value));

    /// <summary>What was read of one part of the resource: its value, and every further answer.</summary>
    /// <param name="parts">How many parts the resource has.</param>
    public void Facts(in Frame frame, ushort ordinal, Concept concept, in ReadValue read, FactMarks marks, int parts)
    {
        Fact(frame, ordinal, concept, read.Value, marks);
        for (var i = 0; i < read.Further?.Count; i++)
        {
            if (AnswerCodings.TryOrdinal(ordinal, i + 1, parts, out var next))
            {
                Fact(frame, next, concept, read.Further[i], marks);
            }
        }
    }

    public void Link(LinkKind kind, Entity from, Entity to, long fromTime = long.MinValue, long toTime = long.MaxValue)
    {
        if (!from.IsNone && !to.IsNone)
        {
            Into.Links.Add(new Link(
                new FactId(default, (ushort)Math.Min(Into.Links.Count, ushort.MaxValue)), kind, from, to, Self, fromTime, toTime, default, Position.Never));
        }
    }
}
