namespace AirwayGuard.Fhir.WriteBack;

/// <summary>What a write did (v3-DataOperation).</summary>
public enum WriteActivity : byte
{
    Create, Update, Nullify,
}
