namespace AirwayGuard.TestKit.Habits;

/// <summary>What is not in the CapabilityStatement.</summary>
public enum MetadataLack : byte
{
    Interactions, Resources, Rest, Statement,
}
