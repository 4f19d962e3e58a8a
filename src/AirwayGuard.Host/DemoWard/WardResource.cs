namespace AirwayGuard.Host.DemoWard;

/// <summary>One resource of the demo ward, ready to be sent.</summary>
/// <param name="Type">FHIR R4 resource type.</param>
/// <param name="Id">Logical id, of our choice, unique in its type.</param>
/// <param name="Json">UTF-8 JSON.</param>
internal sealed record WardResource(string Type, string Id, ReadOnlyMemory<byte> Json);
