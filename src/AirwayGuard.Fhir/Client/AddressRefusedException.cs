namespace AirwayGuard.Fhir.Client;

/// <summary>A request was about to leave the configured server. A bug in a caller: the gate comes first.</summary>
public sealed class AddressRefusedException() : InvalidOperationException("A request was about to go outside the configured server; it was stopped.");
