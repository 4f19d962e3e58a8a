namespace AirwayGuard.TestKit.Simulation;

/// <summary>One thing a person does at the server: charts a version of a resource, or sets the Flag in force inactive.</summary>
/// <param name="After">Time after the beginning at which it is done, at the earliest.</param>
/// <param name="Type">Resource type; for a closing <c>Flag</c>.</param>
/// <param name="Json">The resource; empty for a closing.</param>
/// <param name="Says">In one line, for a schedule that is printed.</param>
internal sealed record ChartingAct(string Patient, TimeSpan After, string Type, string Id, string Json, string Says)
{
    public bool IsClosing => Type == "Flag";

    /// <summary>For a closing: key of the Flag that was in force then in the run without faults; null if there was none, and nothing is done.</summary>
    public Guid? Target { get; set; }

    public override string ToString() => Says;
}
