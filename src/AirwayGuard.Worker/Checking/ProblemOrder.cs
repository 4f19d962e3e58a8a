using System.Collections.Immutable;
using System.Globalization;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Worker.Checking;

/// <summary>Problems by file and position, each once; what belongs to no place in the input comes last.</summary>
internal static class ProblemOrder
{
    public static ImmutableArray<Problem> Of(IReadOnlyList<Problem> problems, IReadOnlyList<CheckInput> inputs)
    {
        var places = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var input in inputs)
        {
            places.TryAdd($"{input.Arrival.Type}/{input.Arrival.Id}", input.Where);
        }

        // A problem names its resource where it can; that stands where it was first met.
        (string File, long Line, long Entry) PlaceOf(Problem problem) =>
            places.TryGetValue(problem.Where, out var place) ? Split(place)
            : !problem.Where.StartsWith("--", StringComparison.Ordinal) ? Split(problem.Where)
            : ("\uFFFF", 0, 0);

        return
        [
            .. problems.Distinct()
                .Select(problem => (Problem: problem, Place: PlaceOf(problem)))
                .OrderBy(one => one.Place.File, StringComparer.Ordinal)
                .ThenBy(one => one.Place.Line)
                .ThenBy(one => one.Place.Entry)
                .ThenBy(one => one.Problem.Where, StringComparer.Ordinal)
                .ThenBy(one => one.Problem.Code.Id, StringComparer.Ordinal)
                .ThenBy(one => one.Problem.Why, StringComparer.Ordinal)
                .Select(one => one.Problem),
        ];
    }

    // "file", "file:line", "file#entry n" or "file:line#entry n".
    private static (string File, long Line, long Entry) Split(string where)
    {
        var entry = 0L;
        var mark = where.LastIndexOf("#entry ", StringComparison.Ordinal);
        if (mark >= 0 && long.TryParse(where.AsSpan(mark + 7), NumberStyles.None, CultureInfo.InvariantCulture, out entry))
        {
            where = where[..mark];
        }

        var colon = where.LastIndexOf(':');
        return colon >= 0 && long.TryParse(where.AsSpan(colon + 1), NumberStyles.None, CultureInfo.InvariantCulture, out var line)
            ? (where[..colon], line, entry)
            : (where, 0, entry);
    }
}
