namespace AirwayGuard.TestKit.Simulation;

/// <summary>What becomes of one call to a port: nothing special, the end of the process, or a fault of the network or server.</summary>
internal class Fate
{
    private readonly string _name;

    protected Fate(string name) => _name = name;

    public static Fate Proceed { get; } = new("Proceed");

    /// <summary>The process ends before the call is made.</summary>
    public static Fate EndBefore { get; } = new("EndBefore");

    /// <summary>The process ends once the call is done, before its answer is seen.</summary>
    public static Fate EndAfter { get; } = new("EndAfter");

    public bool IsEnd => this == EndBefore || this == EndAfter;

    public override string ToString() => _name;
}
