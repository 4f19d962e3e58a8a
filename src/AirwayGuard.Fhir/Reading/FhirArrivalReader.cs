using System.Text;
using System.Text.Json;
using System.Text.Unicode;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Terminology;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// Reads FHIR R4 resources into facts and links. Observations are read from their bytes; what is not plain in one, and every
/// other type, is read through the SDK's recoverable parse. Never throws on input. Safe for concurrent use.
/// </summary>
public sealed class FhirArrivalReader(CodeMap map) : IArrivalReader
{
    private static readonly HashSet<string> Types = [.. ModelInfo.SupportedResources];
    private Desk? _spare;

    /// <inheritdoc />
    public string Version => "11";

    /// <inheritdoc />
    public void Read(Arrival arrival, IEntityInterner entities, Core.Ports.Reading into)
    {
        into.Clear();
        if (arrival.Kind is not (ArrivalKind.Resource or ArrivalKind.Deletion))
        {
            return;
        }

        var desk = Interlocked.Exchange(ref _spare, null) ?? new Desk(new ObservationRow(), new Scribe(map));
        desk.Scribe.Begin(entities, into, arrival.Source, arrival.Id);
        if (arrival.Kind == ArrivalKind.Deletion)
        {
            desk.Scribe.IsAbout(Encoding.UTF8.GetBytes(arrival.Type ?? ""), default);
        }
        else
        {
            ReadResource(JsonCheck.WithoutMark(arrival.Body), arrival, desk);
        }

        Volatile.Write(ref _spare, desk);
    }

    private static void ReadResource(ReadOnlyMemory<byte> body, Arrival arrival, Desk desk)
    {
        if (body.Length <= JsonCheck.LargestEntry && JsonCheck.BeginsAsObservation(body.Span) && Utf8.IsValid(body.Span) && TryPlain(body, desk.Row))
        {
            ObservationMapper.Map(desk.Row, desk.Scribe);
            return;
        }

        var trouble = JsonCheck.Trouble(body.Span, out var type);
        if (trouble is not null)
        {
            desk.Scribe.Unreadable(trouble, trouble == Codes.TooLarge
                ? "The resource has more bytes, or more levels, than are read." : "The bytes are not one FHIR resource.");
        }
        else if (!Types.Contains(type!))
        {
            desk.Scribe.Unreadable(Codes.UnknownResourceType, "FHIR R4 has no such resource type.");
        }
        else if (ResourceReaders.IsRead(type!))
        {
            ReadPoco(body, arrival, desk);
        }
    }

    private static bool TryPlain(ReadOnlyMemory<byte> body, ObservationRow row)
    {
        try
        {
            return RowReader.TryFill(body, row);
        }
        catch (JsonException)
        {
            // Not well-formed: the long way says what is wrong.
            return false;
        }
    }

    private static void ReadPoco(ReadOnlyMemory<byte> body, Arrival arrival, Desk desk)
    {
        var resource = PocoParse.Read(body, out var isDoubled);
        if (resource is null)
        {
            desk.Scribe.Unreadable(Codes.Unreadable, "The resource does not follow the R4 definition of its type.");
            return;
        }

        PocoParse.Guarded(desk.Scribe, body, () =>
        {
            ResourceReaders.Read(resource, arrival, desk);
            if (isDoubled)
            {
                desk.Scribe.Problem(Codes.MemberDoubled, "A member stands twice in one object.");
            }
        });
    }
}
