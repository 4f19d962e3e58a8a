namespace AirwayGuard.Rules.Tests.Shipped;

/// <summary>The limits of one criterion of one check, band by band, each <c>comparison limit|source|status</c>, or empty where not judged.</summary>
/// <param name="Set">Name of the rule set; empty for both.</param>
public sealed record LimitRow(string Set, string Check, int Criterion, string Neonate, string Infant, string Child, string Adult)
{
    /// <summary>The same limit in every band.</summary>
    public static LimitRow All(string set, string check, int criterion, string limit) => new(set, check, criterion, limit, limit, limit, limit);
}
