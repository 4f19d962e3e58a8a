using AirwayGuard.Rules.Comparing;

namespace AirwayGuard.Rules;

/// <summary>The text or JSON of <c>rules compare A B</c>: what becomes of each check, for those who approve it.</summary>
public static class RulesCompare
{
    /// <param name="from">What <see cref="RuleSetLibrary.Resolve"/> gave for the first; faults are written to <paramref name="errors"/>.</param>
    /// <param name="to">The same for the second.</param>
    /// <param name="asJson">The same content for programs.</param>
    /// <returns>0, also where they differ; 1 where a document has faults; 2 where one could not be opened.</returns>
    public static int Write(RuleSetReading from, RuleSetReading to, bool asJson, TextWriter output, TextWriter errors)
    {
        ArgumentNullException.ThrowIfNull(from);
        ArgumentNullException.ThrowIfNull(to);
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(errors);
        RuleSetReading[] faulty = [.. new[] { from, to }.Where(reading => reading.RuleSet is null)];
        if (faulty.Length > 0)
        {
            return faulty.Select(reading => RulesLint.Report(reading, errors)).ToList().Max();
        }

        var comparison = RuleSetComparison.Of(from, to);
        if (asJson)
        {
            CompareJson.Write(comparison, output);
        }
        else
        {
            CompareText.Write(comparison, output);
        }

        return 0;
    }
}
