namespace AirwayGuard.Core.Orders;

/// <summary>A stretch of a sentence without a comma.</summary>
/// <param name="From">Index of its first piece.</param>
/// <param name="To">Index after its last.</param>
/// <param name="Terms">Which terms it holds, a bit each.</param>
internal readonly record struct Clause(int From, int To, UInt128 Terms)
{
    public bool Has(Term term) => (Terms & (UInt128.One << (int)term)) != UInt128.Zero;
}

/// <summary>A sentence, an item of a list or a line.</summary>
/// <param name="First">Index of its first clause.</param>
/// <param name="Count">How many clauses.</param>
/// <param name="IsItem">It begins with the mark of a list.</param>
internal readonly record struct Sentence(int First, int Count, bool IsItem);
