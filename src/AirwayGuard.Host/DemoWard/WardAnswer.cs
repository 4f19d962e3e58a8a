namespace AirwayGuard.Host.DemoWard;

/// <summary>A coded answer of Willowmere's flowsheet, as the demo-rows map has it.</summary>
internal sealed record WardAnswer(string Code, string Display)
{
    public const string System = "https://willowmere.example.org/charting/answer";

    public static readonly WardAnswer Occluded = new("a-occl", "Occluded");
    public static readonly WardAnswer Continuous = new("a-cont", "Continuous, regulated");
    public static readonly WardAnswer Intermittent = new("a-int", "Intermittent");
    public static readonly WardAnswer Full = new("a-full", "Full");
    public static readonly WardAnswer GastricTube = new("a-ngt", "Gastric tube");
    public static readonly WardAnswer TrachealTube = new("a-ett", "Endotracheal tube");
    public static readonly WardAnswer Tracheostomy = new("a-trach", "Tracheostomy");
    public static readonly WardAnswer Extubated = new("a-extub", "Extubated");
    public static readonly WardAnswer InLine = new("a-inline", "In-line");
    public static readonly WardAnswer Open = new("a-open", "Open");
    public static readonly WardAnswer Small = new("a-small", "Small");
    public static readonly WardAnswer Moderate = new("a-mod", "Moderate");
    public static readonly WardAnswer Thin = new("a-thin", "Thin");
    public static readonly WardAnswer Clear = new("a-clear", "Clear");
    public static readonly WardAnswer White = new("a-white", "White");
    public static readonly WardAnswer BloodStreaks = new("a-streaks", "Blood streaks");
    public static readonly WardAnswer CoarseSounds = new("a-coarse", "Coarse sounds");
    public static readonly WardAnswer SecretionsSeen = new("a-seen", "Secretions seen");
    public static readonly WardAnswer SecretionsHeard = new("a-heard", "Secretions heard");
    public static readonly WardAnswer PressureAlarm = new("a-alarm", "High pressure alarm");
}
