namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>The moments in an EHR at which it asks.</summary>
public enum Hook : byte
{
    /// <summary>Orders are about to be signed (CDS Hooks, hook <c>order-sign</c>).</summary>
    OrderSign,

    /// <summary>An order was chosen and is being written (<c>order-select</c>).</summary>
    OrderSelect,

    /// <summary>A chart was opened (<c>patient-view</c>).</summary>
    PatientView,
}
