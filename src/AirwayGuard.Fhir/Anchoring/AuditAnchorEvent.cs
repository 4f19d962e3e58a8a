using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.WriteBack;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Anchoring;

/// <summary>
/// The head of an audit chain as an AuditEvent. R4 gives AuditEvent no identifier of its own: the head's stands on its entity, which
/// servers search with <c>entity:identifier</c>. It holds no charted content and names no patient. Pure.
/// </summary>
public static class AuditAnchorEvent
{
    /// <summary>System of a head's identifier; the value is <c>chain-entry-hash</c>.</summary>
    public const string HeadSystem = FindingKeys.Base + "sid/audit-head";

    /// <summary>System of our kinds of AuditEvent.</summary>
    public const string KindSystem = FindingKeys.Base + "CodeSystem/audit-event";

    /// <summary>Code in <see cref="KindSystem"/>.</summary>
    public const string AnchorKind = "anchor";

    private const string Dicom = "http://dicom.nema.org/resources/ontology/DCM", ApplicationActivity = "110100";
    private const string EntityType = "http://terminology.hl7.org/CodeSystem/audit-entity-type", OtherEntity = "4";

    /// <param name="recorded">When the head was the newest entry.</param>
    public static AuditEvent Build(AuditHead head, DateTimeOffset recorded)
    {
        ArgumentNullException.ThrowIfNull(head);
        return new AuditEvent
        {
            Text = Narratives.Of([string.Create(CultureInfo.InvariantCulture, $"Head of the audit chain of {WrittenSystems.DeviceName}: chain {head.Chain} entry {head.Number} hash {head.Hash}")]),
            Type = new Coding(Dicom, ApplicationActivity, "Application Activity"),
            Subtype = [new Coding(KindSystem, AnchorKind, "Anchor of an audit chain")],
            Action = AuditEvent.AuditEventAction.E,
            RecordedElement = new Instant(recorded),
            Outcome = AuditEvent.AuditEventOutcome.N0,
            Agent = [new AuditEvent.AgentComponent { Who = Service(), Requestor = false }],
            Source = new AuditEvent.SourceComponent { Observer = Service() },
            Entity =
            [
                new AuditEvent.EntityComponent
                {
                    What = new ResourceReference { Identifier = new Identifier(HeadSystem, ValueOf(head)) },
                    Type = new Coding(EntityType, OtherEntity),
                    Name = "Head of an audit chain",
                },
            ],
        };
    }

    /// <summary>Value of the head's identifier.</summary>
    public static string ValueOf(AuditHead head)
    {
        ArgumentNullException.ThrowIfNull(head);
        return string.Create(CultureInfo.InvariantCulture, $"{head.Chain}-{head.Number}-{head.Hash}");
    }

    /// <summary>Reads the head back; false where the event is of another kind or the head is not of its form.</summary>
    public static bool TryRead(AuditEvent audit, [NotNullWhen(true)] out AuditHead? head)
    {
        ArgumentNullException.ThrowIfNull(audit);
        head = audit.Entity.Select(entity => entity.What?.Identifier).FirstOrDefault(one => one?.System == HeadSystem)?.Value?.Split('-') is [var chain, var number, { Length: 64 } hash]
            && long.TryParse(chain, NumberStyles.None, CultureInfo.InvariantCulture, out var ofChain) && long.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var ofEntry)
                ? new AuditHead(ofChain, ofEntry, hash)
                : null;
        return head is not null;
    }

    // By identifier only: the author Device is on the server no sooner than a first finding is.
    private static ResourceReference Service() => new()
    {
        Type = "Device",
        Identifier = new Identifier(WrittenSystems.Device, WrittenSystems.DeviceValue),
        Display = WrittenSystems.DeviceName,
    };
}
