using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Questions;
using AirwayGuard.Worker.Checking;

namespace AirwayGuard.Worker.Questions;

/// <summary>What one question is judged on: the stay as the ledger has it, with what the question says laid over it. Nothing is kept.</summary>
internal sealed class QuestionChart(ILedger ledger, Entity patient, TimelineLease? stay, QuestionEntities entities) : IArrivalWords, IDisposable
{
    /// <summary>Behind every position that a ledger gives.</summary>
    public static readonly Position First = new(1L << 62);

    private readonly List<Arrival> _arrivals = [];
    private readonly List<Laid> _laid = [];

    public QuestionEntities Entities => entities;

    /// <summary>Lays a resource over the stay; what was laid of it before is replaced.</summary>
    public void Lay(ReadArrival one, Position? rowKnown)
    {
        entities.Identify(one.Reading.Self, one.Reading.Identifier);
        _arrivals.Add(one.Arrival);
        _laid.Add(new Laid(one.Reading, rowKnown));
    }

    /// <summary>The same stay with other orders laid over it, apart from this.</summary>
    public QuestionChart With(ReadArrival one, Position? rowKnown)
    {
        var other = new QuestionChart(ledger, patient, stay, entities);
        other._arrivals.AddRange(_arrivals);
        other._laid.AddRange(_laid);
        other.Lay(one, rowKnown);
        return other;
    }

    public TimelineLease Load() => LaidOver.Of(patient, stay, _laid, First);

    /// <inheritdoc />
    public ValueTask<Arrival?> ArrivalAsync(Position position, CancellationToken stop) =>
        position < First ? ledger.ArrivalAsync(position, stop) : ValueTask.FromResult<Arrival?>(_arrivals[(int)(position.Value - First.Value)]);

    /// <inheritdoc />
    public string NameOf(Entity entity) => entities.NameOf(entity);

    /// <inheritdoc />
    public string IdentityOf(Entity entity) => entities.IdentityOf(entity);

    public void Dispose() => stay?.Dispose();
}
