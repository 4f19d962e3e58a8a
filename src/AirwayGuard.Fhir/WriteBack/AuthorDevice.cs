using AirwayGuard.Core.Findings;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>The Device that stands as author: this service, with the versions of what it judges by.</summary>
public static class AuthorDevice
{
    private const string Software = "software", RuleSet = "rule set", Site = "site configuration";

    /// <summary>Names the Device by its identifier, where its place on a server is not known; the literal reference is nominal.</summary>
    public static ResourceReference ByIdentifier() => new()
    {
        Reference = $"Device/{WrittenSystems.DeviceValue}",
        Type = "Device",
        Identifier = new Identifier(WrittenSystems.Device, WrittenSystems.DeviceValue),
        Display = WrittenSystems.DeviceName,
    };

    /// <summary>The Device's place on a server.</summary>
    public static ResourceReference At(string id) => new($"Device/{id}", WrittenSystems.DeviceName);

    /// <param name="owner"><c>Organization/id</c>, or null.</param>
    public static Device Build(MessageBasis basis, string? owner)
    {
        ArgumentNullException.ThrowIfNull(basis);
        return new Device
        {
            Text = Narratives.Of([$"{WrittenSystems.DeviceName} {basis.SoftwareVersion}: checks airway suction against rule set {basis.RuleSet} {basis.RuleSetVersion}, site configuration {basis.SiteVersion}."]),
            Identifier = [new Identifier(WrittenSystems.Device, WrittenSystems.DeviceValue)],
            Status = Device.FHIRDeviceStatus.Active,
            DeviceName = [new Device.DeviceNameComponent { Name = WrittenSystems.DeviceName, Type = DeviceNameType.UserFriendlyName }],
            Type = new CodeableConcept { Text = "Rule engine" },
            Version = [VersionOf(Software, basis.SoftwareVersion), VersionOf(RuleSet, $"{basis.RuleSet} {basis.RuleSetVersion}"), VersionOf(Site, basis.SiteVersion)],
            Owner = owner is null ? null : new ResourceReference(owner),
        };
    }

    /// <summary>Whether the Device on the server names the same versions and owner.</summary>
    internal static bool IsCurrent(Device standing, Device wanted) =>
        Versions(standing).SequenceEqual(Versions(wanted), StringComparer.Ordinal)
        && (wanted.Owner is null || string.Equals(standing.Owner?.Reference, wanted.Owner.Reference, StringComparison.Ordinal));

    /// <summary>Takes over versions and owner, and leaves what others put there.</summary>
    internal static void Update(Device standing, Device wanted)
    {
        standing.Version = wanted.Version;
        standing.Owner = wanted.Owner ?? standing.Owner;
        standing.Text = wanted.Text;
    }

    private static IEnumerable<string> Versions(Device device) =>
        device.Version.Select(version => $"{version.Type?.Text}={version.ValueElement?.JsonValue}").Order(StringComparer.Ordinal);

    private static Device.VersionComponent VersionOf(string type, string value) =>
        new() { Type = new CodeableConcept { Text = type }, Value = WrittenText.OrNull(value) ?? "unknown" };
}
