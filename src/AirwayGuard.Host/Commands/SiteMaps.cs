using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Host.Commands;

/// <summary>The shipped maps with those that a person names by <c>--map</c>.</summary>
internal static class SiteMaps
{
    /// <returns>Null where one cannot be used; why is told then.</returns>
    public static CodeMap? Load(IReadOnlyList<string> files, TextWriter errors)
    {
        if (files.Count == 0)
        {
            return ShippedMaps.WithDemoRows;
        }

        var sources = new List<MapSource> { ShippedMaps.Standard, ShippedMaps.DemoRows };
        foreach (var file in files)
        {
            var (source, problem) = ConfiguredFiles.Map(file);
            if (source is null)
            {
                errors.WriteLine(ProblemLine.Of(problem!));
                return null;
            }

            sources.Add(source);
        }

        var loaded = CodeMap.Load([.. sources]);
        foreach (var fault in loaded.Faults)
        {
            errors.WriteLine(ProblemLine.Of(fault));
        }

        return loaded.Map;
    }
}
