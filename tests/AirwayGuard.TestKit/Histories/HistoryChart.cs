using System.Collections.Immutable;
using System.Globalization;

namespace AirwayGuard.TestKit.Histories;

/// <summary>One random history in the making.</summary>
internal sealed partial class HistoryChart(Random random, string patient)
{
    private static readonly TimeSpan[] Offsets = [TimeSpan.Zero, TimeSpan.FromHours(1), TimeSpan.FromHours(-8), new(5, 30, 0), TimeSpan.FromHours(13)];

    private readonly List<Stay> _stays = [];
    private readonly List<Thing> _things = [];
    private readonly List<ThingUse> _uses = [];
    private readonly List<Metric> _metrics = [];
    private readonly List<SuctionAct> _acts = [];
    private readonly List<ChartRow> _rows = [];
    private readonly List<SuctionOrder> _orders = [];
    private readonly List<string> _places = [];
    private TimeSpan _offset;
    private string? _stay;
    private bool _newborn;
    private int _ids;

    public History Draw()
    {
        _offset = Pick(Offsets);
        var start = new DateTimeOffset(2026, 3, 1, random.Next(24), Pick(0, 30, 59), 0, _offset).AddDays(random.Next(0, 60));
        var birth = Birth(start);
        Regulators(start);
        Outlets(start);
        var stays = Chance(15) ? 2 : 1;
        for (var s = 0; s < stays; s++)
        {
            var end = StayFrom(start);
            start = end + Pick(TimeSpan.FromMinutes(20), TimeSpan.FromHours(1), TimeSpan.FromHours(5));
        }

        Correct();
        return new(patient, birth, [.. _stays], [.. _things], [.. _uses], [.. _metrics], [.. _acts], [.. _rows], [.. _orders]) { Places = [.. _places] };
    }

    private DateTimeOffset StayFrom(DateTimeOffset start)
    {
        _stay = NewId("stay");
        Circumstances(start);
        Background(start);
        if (Chance(25))
        {
            Order(start.AddMinutes(-30));
        }

        Airway(start);
        var now = start.AddMinutes(random.Next(5, 90));
        for (var n = random.Next(1, 6); n > 0; n--)
        {
            now = Step(now);
            _offset = Chance(5) ? Pick(Offsets) : _offset;
            now = now.ToOffset(_offset);
        }

        var end = now + Pick(TimeSpan.Zero, TimeSpan.FromMinutes(30), TimeSpan.FromHours(3));
        _stays.Add(new(_stay, start, Chance(60) ? end : null, Pick("IMP", "IMP", "IMP", "EMER", "HH")));
        return end;
    }

    private DateTimeOffset Step(DateTimeOffset now)
    {
        switch (random.Next(11))
        {
            case < 5:
                return Session(now);
            case 10:
                Round(now);
                return now + Pick(TimeSpan.FromMinutes(3), new TimeSpan(0, 2, 59), TimeSpan.FromHours(2), TimeSpan.FromHours(4));
            case < 8:
                for (var more = random.Next(1, 4); more > 1; more--)
                {
                    Setting(now);
                    now += Pick(TimeSpan.FromMinutes(1), TimeSpan.FromMinutes(15), TimeSpan.FromHours(12));
                }

                Setting(now);
                return now + Pick(TimeSpan.FromMinutes(10), TimeSpan.FromHours(2), TimeSpan.FromHours(12), new TimeSpan(12, 0, 1), TimeSpan.FromHours(6));
            case 8:
                ChangeAirway(now);
                // Never at the instant at which the new tube's size was charted.
                return now + Pick(TimeSpan.FromMinutes(30), TimeSpan.FromMinutes(58), TimeSpan.FromMinutes(61), TimeSpan.FromHours(2));
            default:
                Order(now);
                return now.AddMinutes(random.Next(1, 60));
        }
    }

    private string? Birth(DateTimeOffset at)
    {
        var day = DateOnly.FromDateTime(at.DateTime);
        if (Chance(12))
        {
            // Born early enough for age to be counted from term.
            Row("gestational-age-at-birth", at, Pick<Charted>(new Charted.Number(Pick(24m, 34m, 36m, 37m), "wk"), new Charted.Number(Pick(240m, 258m, 259m), "d")));
            return Full(day.AddDays(-Pick(0, 28, 29, 60, 75, 90, 365, 400, 729, 731)));
        }

        return random.Next(20) switch
        {
            0 => null,
            1 => Full(day.AddDays(Pick(1, 3, 40))),
            2 => day.AddYears(-Pick(0, 1, 17, 18, 19, 40)).ToString("yyyy-MM", CultureInfo.InvariantCulture),
            3 => day.AddYears(-Pick(0, 1, 18, 19, 40)).ToString("yyyy", CultureInfo.InvariantCulture),
            4 or 5 => Newborn(day.AddDays(-Pick(0, 1, 27, 28, 29))),
            6 or 7 => Full(day.AddYears(-1).AddDays(Pick(-1, 0, 1, 2, 100))),
            8 or 9 => Full(day.AddYears(-18).AddDays(Pick(-1, 0, 1, 2, 1000))),
            10 => Pick("2008-02-29", "2024-02-29"),
            _ => Full(day.AddYears(-random.Next(19, 90)).AddDays(-random.Next(300))),
        };
    }

    private string Newborn(DateOnly day)
    {
        _newborn = true;
        return Full(day);
    }

    private void Circumstances(DateTimeOffset start)
    {
        if (Chance(15))
        {
            Row("intracranial-pressure-monitored", start.AddMinutes(random.Next(0, 300)), new Charted.YesNo(true));
            if (Chance(40))
            {
                Row("intracranial-pressure-monitored", start.AddMinutes(random.Next(301, 700)), new Charted.YesNo(false));
            }
        }

        if (Chance(5))
        {
            Row("hyperoxygenation-contraindicated", start, new Charted.YesNo(Chance(80)));
        }
    }

    private void Airway(DateTimeOffset at)
    {
        switch (random.Next(10))
        {
            case 0:
                return;
            case < 6:
                TubeByRows(at, charted: !Chance(10));
                break;
            default:
                TubeByDevice(at);
                break;
        }

        if (Chance(15))
        {
            Cannula(at.AddMinutes(Pick(0, 60, 240)));
        }
    }

    private void TubeByRows(DateTimeOffset at, bool charted)
    {
        Row("airway-type", at, Coded(Pick("tracheal-tube", "tracheostomy-tube")));
        if (charted)
        {
            Row("tube-inner-diameter", Chance(80) ? at : at + new TimeSpan(0, 30, 7), Diameter());
        }
    }

    private void TubeByDevice(DateTimeOffset at)
    {
        var tube = new Thing(NewId("tube"), Pick("tracheal-tube", "tracheostomy-tube"), Chance(85) ? Pick(8.0m, 7.5m, 6.5m, 4.0m, 3.5m) : null);
        _things.Add(tube);
        _uses.Add(new(NewId("use"), tube.Id, at, Chance(40) ? at.AddHours(random.Next(2, 20)) : null));
    }

    private void Cannula(DateTimeOffset at)
    {
        switch (random.Next(4))
        {
            case 0:
                Row("inner-cannula-in-place", at, new Charted.YesNo(true));
                break;
            case 1:
                var cannula = new Thing(NewId("cannula"), "inner-cannula", Chance(70) ? 6.5m : null);
                _things.Add(cannula);
                _uses.Add(new(NewId("use"), cannula.Id, at, Chance(50) ? at.AddHours(3) : null));
                break;
            default:
                Row("inner-cannula-diameter", at, new Charted.Number(6.5m, "mm"));
                if (Chance(50))
                {
                    Row("inner-cannula-in-place", at.AddHours(random.Next(1, 8)), new Charted.YesNo(false));
                }

                break;
        }
    }

    private void ChangeAirway(DateTimeOffset at)
    {
        // A tube known as a Device is exchanged as one, so that rows and devices do not tell two stories.
        if (_uses.Count > 0 || Chance(50))
        {
            Row("airway-type", at, Coded("none"));
            if (Chance(60))
            {
                TubeByRows(at + Pick(TimeSpan.FromMinutes(20), TimeSpan.FromMinutes(59), TimeSpan.FromMinutes(60)), charted: true);
            }
        }
        else
        {
            Row("tube-inner-diameter", at, Diameter());
        }
    }

    private Charted.Number Diameter()
    {
        var size = Pick(8.0m, 8.0m, 7.5m, 7.0m, 6.5m, 4.0m, 3.5m, 3.0m, 2.5m);
        return random.Next(10) switch
        {
            < 6 => new Charted.Number(size, "mm"),
            6 => new Charted.Number(size / 10m, "cm"),
            7 => new Charted.Number(size, "mm", NumberForm.TextUnit),
            _ => new Charted.Number(size, "mm", NumberForm.Text),
        };
    }

    private void Regulators(DateTimeOffset start)
    {
        if (Chance(40))
        {
            var regulator = new Thing(NewId("regulator"), "vacuum-regulator", Use: Chance(10) ? Pick("airway", "gastric") : null);
            _things.Add(regulator);
            var calibrated = Calibration(start);
            _metrics.Add(new(NewId("metric"), regulator.Id, Pick("setting", "measurement"), Chance(50) ? calibrated : null));
            if (calibrated is { } time && Chance(50))
            {
                RowAbout(regulator.Reference, "calibrated-on", time, new Charted.Moment(time));
            }
        }
    }

    private string? AnyRegulator() => _metrics.Count == 0 || Chance(40) ? null
        : Chance(50) ? _metrics[0].Reference : "Device/" + _metrics[0].Thing;

    private void Setting(DateTimeOffset at)
    {
        var device = AnyRegulator();
        var components = ImmutableArray.CreateBuilder<(string, Charted)>();
        if (Chance(40))
        {
            components.Add(("vacuum-reading-method", Coded(Pick("occluded", "occluded", "flowing", "unknown"))));
        }

        if (Chance(8))
        {
            components.Add(("suction-use", Coded(Pick("airway", "gastric", "oral", "chest-drain"))));
        }

        var mode = Chance(30) ? Pick("regulated", "regulated", "full-line", "off", "intermittent") : null;
        if (mode is not null && Chance(30))
        {
            components.Add(("regulator-mode", Coded(mode)));
            mode = null;
        }

        if (mode is not null)
        {
            Row("regulator-mode", at, Coded(mode), device: device);
        }

        if (mode is null || Chance(60))
        {
            Row(Chance(75) ? "vacuum-pressure" : "vacuum-set", at, Vacuum(), device: device, components: components.ToImmutable());
        }
    }

    private Charted.Number Vacuum()
    {
        var form = Pick(NumberForm.Ucum, NumberForm.Ucum, NumberForm.TextUnit, NumberForm.Text);
        var comparator = form != NumberForm.Text && Chance(5) ? Pick("<", "<=", ">=", ">") : null;
        var (amount, code, text) = random.Next(20) switch
        {
            < 11 => (Pick(80m, 80m, 100m, 100.5m, 120m, 120m, 150m, 150m, 150.4m, 151m, 200m, 199.9m, 250m, 60m, 40m, 19.9m, 20m, 760m, 761m, 0m), "mm[Hg]", "mmHg"),
            < 14 => (Pick(20m, 16m, 15.9m, 10.6m, 10.7m, 13.3m, 13.4m, 20.1m, 26.7m, 2.6m, 101.4m), "kPa", "kPa"),
            14 => (Pick(163m, 164m, 204m, 205m, 20m, 136m), "cm[H2O]", "cmH2O"),
            15 => (Pick(15m, 12m, 20m), "cm[Hg]", "cmHg"),
            16 => (Pick(4.7m, 5.9m, 10m), "[in_i'Hg]", "inHg"),
            17 => (Pick(160m, 200m, 267m), "mbar", "hPa"),
            18 => (Pick(120m, 500m, 900m, 15m, 2000m), null, null),
            _ => (Pick(120m, 200m), form == NumberForm.Text ? null : "[psi]", form == NumberForm.Text ? null : "psi"),
        };
        // Either sign: a depth below ambient is the same however it is written.
        amount = amount != 0 && Chance(15) && comparator is null ? -amount : amount;
        return new Charted.Number(amount, form == NumberForm.Ucum ? code : text, form, comparator);
    }

    private void Correct()
    {
        for (var i = _rows.Count - 1; i >= 0; i--)
        {
            var row = _rows[i];
            if (Chance(3))
            {
                _rows.Add(row with { Status = "entered-in-error", Saved = row.Saved.AddHours(1) });
            }
            else if (Chance(3) && row.Concept is "vacuum-pressure" or "vacuum-set")
            {
                _rows.Add(row with { Status = "corrected", Value = Vacuum(), Saved = row.Saved.AddHours(1) });
            }
        }
    }

    private void Row(
        string concept, DateTimeOffset at, Charted value, DateTimeOffset? end = null, string? key = null, string? act = null, string? device = null,
        ImmutableArray<(string, Charted)> components = default) =>
        _rows.Add(new(NewId("row"), concept, value, at, end, _stay, key, act, device, "final", at.AddMinutes(5), components.IsDefault ? [] : components));

    private Charted Coded(string code, bool words = false) =>
        code.Contains(' ', StringComparison.Ordinal) ? new Charted.Words(code)
        : new Charted.Answer(code, words && Chance(30) ? AnswerForm.Text : Chance(10) ? AnswerForm.ConceptText : AnswerForm.Coding);

    private string NewKey() => NewId("key");

    private string NewId(string kind) => $"{patient}-{kind}-{++_ids}";

    private bool Chance(int percent) => random.Next(100) < percent;

    private T Pick<T>(params ReadOnlySpan<T> of) => of[random.Next(of.Length)];

    private static string Full(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
