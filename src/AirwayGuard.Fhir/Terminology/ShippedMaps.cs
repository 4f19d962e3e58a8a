namespace AirwayGuard.Fhir.Terminology;

/// <summary>The maps that come with AirwayGuard.</summary>
public static class ShippedMaps
{
    private static readonly Lazy<CodeMap> OfStandardCodes = new(() => Whole(Standard));
    private static readonly Lazy<CodeMap> OfDemo = new(() => Whole(Standard, DemoRows));

    /// <summary>LOINC, SNOMED CT and MDC codes.</summary>
    public static MapSource Standard => Read("standard-codes.json");

    /// <summary>The rows of the demo's invented hospital.</summary>
    public static MapSource DemoRows => Read("demo-rows.json");

    /// <summary>The standard codes alone: what <c>check</c> reads with when a site adds nothing.</summary>
    public static CodeMap StandardCodes => OfStandardCodes.Value;

    /// <summary>The standard codes and the demo's rows.</summary>
    public static CodeMap WithDemoRows => OfDemo.Value;

    private static CodeMap Whole(params MapSource[] sources)
    {
        var loaded = CodeMap.Load(sources);
        return loaded.Map ?? throw new InvalidOperationException($"A shipped map is faulty: {loaded.Faults[0]}");
    }

    private static MapSource Read(string name)
    {
        using var stream = typeof(ShippedMaps).Assembly.GetManifestResourceStream($"AirwayGuard.Fhir.Terminology.{name}")
            ?? throw new InvalidOperationException($"The embedded map {name} is missing.");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return new MapSource(name, bytes);
    }
}
