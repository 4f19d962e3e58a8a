namespace AirwayGuard.Worker.Intake;

/// <summary>Names of the sweep's cursors.</summary>
public static class SweepNames
{
    /// <summary>The cursor of a question.</summary>
    public static string CursorName(string query) => "sweep:" + query;

    /// <summary>The cursor of its wide sweeps. Apart from the other, which quick sweeps move meanwhile: what was hidden when the last wide sweep looked is behind that one.</summary>
    public static string WideCursorName(string query) => "sweep-wide:" + query;
}
