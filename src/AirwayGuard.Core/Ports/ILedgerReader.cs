using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.SignOffs;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Ports;

/// <summary>
/// A ledger looked at from outside, also while a service is writing it: nothing is written, and no lock is taken. What it says is
/// as of each question; the service may go on between two.
/// </summary>
public interface ILedgerReader : IEntityNames, IAsyncDisposable
{
    /// <summary>Findings whose key begins with these hexadecimal digits (4 to 32, without hyphens), by key; at most <paramref name="most"/>.</summary>
    ValueTask<IReadOnlyList<FindingRecord>> FindAsync(string firstDigits, int most, CancellationToken stop);

    /// <inheritdoc cref="ILedger.FindingsAsync"/>
    ValueTask<IReadOnlyList<FindingRecord>> FindingsAsync(Entity patient, CancellationToken stop);

    /// <inheritdoc cref="ILedger.LoadAsync(Entity, TimeRange, Position, CancellationToken)"/>
    ValueTask<TimelineLease> LoadAsync(Entity patient, TimeRange window, Position asKnownAt, CancellationToken stop);

    /// <inheritdoc cref="ILedger.ArrivalAsync"/>
    ValueTask<Arrival?> ArrivalAsync(Position position, CancellationToken stop);

    /// <summary>The positions, times and bases at which a patient was judged, in order.</summary>
    ValueTask<IReadOnlyList<JudgedPoint>> JudgedAsync(Entity patient, CancellationToken stop);

    /// <summary>The document of a rule set that was in force, as it was; null where the ledger holds none of this hash.</summary>
    ValueTask<RuleDocument?> RulesAsync(string sha256, CancellationToken stop);

    /// <inheritdoc cref="ILedger.SignOffsAsync"/>
    ValueTask<IReadOnlyList<SignOff>> SignOffsAsync(CancellationToken stop);

    /// <summary>The audit entries about one subject (a finding's key, a resource), in order.</summary>
    ValueTask<IReadOnlyList<AuditEntry>> AuditOfAsync(string subject, CancellationToken stop);

    /// <summary>What is told to be a wall outlet by rows that stand (<see cref="WallOutlets.IsTold"/>), in order.</summary>
    ValueTask<IReadOnlyList<Entity>> OutletsAsync(CancellationToken stop);

    /// <summary>The version that stands of each resource of a type; none of what was deleted, or whose body was purged.</summary>
    ValueTask<IReadOnlyList<Arrival>> StandingAsync(string type, CancellationToken stop);

    /// <summary>What is set aside, by number.</summary>
    ValueTask<IReadOnlyList<ParkedEntry>> ParkedAsync(CancellationToken stop);

    /// <summary>Cards given from one time (included) to another (not included), by time, then id, each with everything reported on it.</summary>
    ValueTask<IReadOnlyList<CardHistory>> CardsAsync(DateTimeOffset from, DateTimeOffset to, CancellationToken stop);
}
