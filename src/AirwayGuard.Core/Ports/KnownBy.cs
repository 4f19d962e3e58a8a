namespace AirwayGuard.Core.Ports;

/// <summary>Whose clock says when an arrival became known.</summary>
public enum KnownBy : byte
{
    Received, ServersStamp, Import,
}
