namespace AirwayGuard.Host.DemoWard;

/// <summary>A patient's airway and what is used to suction it.</summary>
/// <param name="Kind">The answer charted for what is in place.</param>
/// <param name="Size">The tube's inner diameter as the ward writes it.</param>
/// <param name="Millimetres">The same, mm.</param>
/// <param name="AsDevice">The tube is a Device in use instead of charted rows.</param>
/// <param name="Catheter">The usual catheter as the ward writes it; fits the tube.</param>
/// <param name="System">The answer charted for the suction system.</param>
internal sealed record WardAirway(WardAnswer Kind, string Size, decimal Millimetres, bool AsDevice, string Catheter, WardAnswer System)
{
    public static WardAirway Tube(string size, decimal millimetres, string catheter, bool asDevice = false) =>
        new(WardAnswer.TrachealTube, size, millimetres, asDevice, catheter, WardAnswer.InLine);

    public static WardAirway Tracheostomy(string size, decimal millimetres, string catheter) =>
        new(WardAnswer.Tracheostomy, size, millimetres, true, catheter, WardAnswer.Open);

    public bool IsTracheostomy => Kind == WardAnswer.Tracheostomy;
}
