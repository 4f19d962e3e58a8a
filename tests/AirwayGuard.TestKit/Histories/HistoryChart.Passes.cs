using System.Collections.Immutable;
using System.Globalization;

namespace AirwayGuard.TestKit.Histories;

/// <content>Sessions of passes with their columns, and orders.</content>
internal sealed partial class HistoryChart
{
    private DateTimeOffset Session(DateTimeOffset start)
    {
        var passes = Pick(1, 1, 2, 3);
        var kind = random.Next(3);
        var parent = kind == 0 && Chance(15) ? NewId("parent") : null;
        var at = start;
        Preoxygenate(start, NewKey());
        for (var n = 0; n < passes; n++)
        {
            var end = Pass(at, kind, parent);
            at = end + Pick(TimeSpan.FromSeconds(30), TimeSpan.FromSeconds(29), TimeSpan.FromMinutes(2), TimeSpan.FromMinutes(5), new TimeSpan(0, 5, 1));
        }

        return at + Pick(TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(6), TimeSpan.FromMinutes(40), TimeSpan.FromHours(3));
    }

    private DateTimeOffset Pass(DateTimeOffset at, int kind, string? parent)
    {
        var seconds = Pick(8, 10, 11, 12, 15, 15, 16, 20, 21, 25);
        var end = kind < 2 && Chance(60) ? at.AddSeconds(seconds) : (DateTimeOffset?)null;
        var key = Chance(30) ? NewKey() : null;
        string? act = null;
        if (kind == 0)
        {
            act = NewId("act");
            var used = ImmutableArray.CreateBuilder<string>();
            if (Chance(25))
            {
                var catheter = new Thing(NewId("catheter"), Pick("suction-catheter", "closed-suction-catheter"), French: Pick(12m, 10m, 14m, 6m, 8m));
                _things.Add(catheter);
                used.Add(catheter.Id);
            }

            if (_metrics.Count > 0 && Chance(40))
            {
                used.Add(_metrics[0].Thing);
            }

            _acts.Add(new(act, at, end, Chance(4) ? Pick("not-done", "entered-in-error") : "completed", _stay, parent, used.ToImmutable())
            {
                Order = _orders.Count > 0 && Chance(50) ? _orders[^1].Id : null,
            });
            act = Chance(50) ? act : null;
        }
        else if (kind == 1)
        {
            Row("suction-pass", at, Chance(60) ? new Charted.Nothing() : new Charted.YesNo(!Chance(5)), end, key: key);
        }

        Columns(at, seconds, kind, key, act);
        Practice(at, key, act);
        Vitals(at, end ?? at);
        return end ?? at;
    }

    private void Columns(DateTimeOffset at, int seconds, int kind, string? key, string? act)
    {
        if (kind == 2 || Chance(40))
        {
            Charted duration = random.Next(6) switch
            {
                0 => new Charted.Number(Pick(0.2m, 0.25m, 0.3m), "min"),
                1 => new Charted.Number(seconds, "sec", NumberForm.TextUnit),
                2 => new Charted.Number(seconds, "s", NumberForm.Text),
                _ => new Charted.Number(seconds + Pick(0m, 0m, 0.5m, 1m, 2m), "s", NumberForm.Ucum, Chance(5) ? Pick("<", ">") : null),
            };
            Row("pass-duration", at, duration, key: key, act: act);
        }

        if (Chance(15))
        {
            Row("pass-count", at, new Charted.Number(Pick(1m, 2m, 3m), "{count}"), key: key, act: act);
        }

        if (Chance(70))
        {
            Row("catheter-size", at, Catheter(), key: key, act: act);
        }

        if (Chance(60))
        {
            Row("secretion-appearance", at, Coded(Pick("clear", "white", "blood-streaked", "blood-streaked", "frank-blood", "clear", "not blood-streaked"), words: true), key: key, act: act);
        }

        if (Chance(20))
        {
            Row("preoxygenation", at, Pick<Charted>(new Charted.YesNo(true), new Charted.YesNo(true), new Charted.YesNo(false), new Charted.NotPerformed()), key: key, act: act);
        }

        if (Chance(25))
        {
            Row("vacuum-pressure", at, Vacuum(), device: AnyRegulator(), key: key, act: act,
                components: Chance(50) ? [("vacuum-reading-method", Coded(Pick("occluded", "flowing")))] : []);
        }
    }

    private void Preoxygenate(DateTimeOffset start, string key)
    {
        switch (random.Next(9))
        {
            case 0:
                Row("fio2", start - Pick(TimeSpan.FromMinutes(2), new TimeSpan(0, 2, 1), TimeSpan.FromMinutes(1)), Oxygen(), key: key);
                break;
            case 1:
                var from = start - Pick(TimeSpan.FromMinutes(4), TimeSpan.FromMinutes(2), TimeSpan.FromMinutes(1));
                Row("preoxygenation", from, new Charted.Number(Pick(100m, 99m, 98m, 60m), "%"), from + Pick(TimeSpan.FromSeconds(60), TimeSpan.FromSeconds(119), TimeSpan.FromSeconds(120)), key: key);
                break;
            case 2 or 8:
                Row("fio2", start - Pick(TimeSpan.FromHours(4), new TimeSpan(4, 0, 1), TimeSpan.FromMinutes(3), new TimeSpan(0, 2, 59)), Oxygen(), key: key);
                break;
            case 3:
                Row("preoxygenation", start - Pick(TimeSpan.FromMinutes(2), new TimeSpan(0, 2, 1), TimeSpan.FromSeconds(30)), new Charted.YesNo(true), key: key);
                break;
            default:
                break;
        }
    }

    private Charted Oxygen() => Pick<Charted>(
        new Charted.Number(100m, "%"), new Charted.Number(0.99m, "1"), new Charted.Number(0.98m, "1"), new Charted.Number(1.0m, null, NumberForm.TextUnit),
        new Charted.Number(40m, "%"), new Charted.Number(99m, null, NumberForm.TextUnit));

    private Charted Catheter()
    {
        var size = Pick(12m, 12m, 14m, 10m, 8m, 6m, 5m, 16m);
        return random.Next(6) switch
        {
            0 => new Charted.Number(size, "Fr", NumberForm.TextUnit),
            1 => new Charted.Number(size, "Fr", NumberForm.Text),
            2 => new Charted.Words("Ch " + size.ToString(CultureInfo.InvariantCulture)),
            _ => new Charted.Number(size, "[Ch]"),
        };
    }

    private void Order(DateTimeOffset at)
    {
        var timed = Chance(70);
        var (frequency, period, unit) = Pick((1, 4m, "h"), (1, 2m, "h"), (6, 1m, "d"), (1, 30m, "min"));
        _orders.Add(new(
            NewId("order"), at, Pick("active", "active", "active", "on-hold", "revoked", "draft"), Pick("order", "order", "order", "plan", "filler-order"), _stay,
            timed ? frequency : null, timed ? period : null, timed ? unit : null,
            Pick<bool?>(null, null, true, false), Chance(5),
            Chance(45) ? new Charted.Number(Pick(120m, 150m, 200m, 15m, 0m, 800m), Pick("mm[Hg]", "mm[Hg]", "kPa", null)) : null,
            Chance(45) ? new Charted.Number(Pick(12m, 14m, 10m, 26m), "[Ch]") : null)
        {
            VacuumLow = Chance(20) ? Pick(10m, 60m) : null,
            Mode = Chance(12) ? Pick("full-line", "intermittent", "regulated") : null,
            System = Chance(15) ? Pick("open", "closed") : null,
            Depth = Chance(15) ? Pick<Charted>(new Charted.Answer("deep"), new Charted.Answer("shallow"), new Charted.Number(Pick(32m, 15m), "cm")) : null,
            Saline = Chance(15) ? Pick<Charted>(new Charted.YesNo(true), new Charted.YesNo(false), new Charted.Number(Pick(0.5m, 2m), "mL")) : null,
            Preoxygenation = Chance(20) ? Pick<Charted>(new Charted.YesNo(true), new Charted.Number(Pick(100m, 50m, 40m), "%")) : null,
            Reason = Chance(8) ? AnyReason() : null,
        });
    }
}
