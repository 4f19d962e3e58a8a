using AirwayGuard.Benchmarks.Charting;

namespace AirwayGuard.Benchmarks.Year;

/// <summary>
/// One unit day by day: each bed holds one stay after the other, of 1 to 11 days. Nothing is made before it is asked for, and nothing
/// is held but who lies where.
/// </summary>
internal sealed class Unit(YearOptions options)
{
    /// <summary>Midnight of the first day.</summary>
    public static readonly DateTimeOffset Begins = new(2026, 1, 1, 0, 0, 0, TimeSpan.FromHours(1));

    private readonly Random _random = new(options.Seed);
    private readonly FullStay?[] _beds = new FullStay?[options.Beds];
    private int _patients;

    /// <summary>The beds of one day, in order. To be asked for day after day.</summary>
    public IEnumerable<BedDay> Day(int day)
    {
        var midnight = Begins.AddDays(day);
        for (var bed = 0; bed < _beds.Length; bed++)
        {
            var stay = _beds[bed] ?? new FullStay(++_patients, midnight, Math.Min(_random.Next(1, 12), options.Days - day), options.Seed, IsQuiet: false);
            var own = (midnight - stay.Begins).Days;
            _beds[bed] = own + 1 == stay.Days ? null : stay;
            yield return new BedDay(bed, stay, own);
        }
    }
}
