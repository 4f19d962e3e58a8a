using System.Collections.Immutable;

namespace AirwayGuard.TestKit.Histories;

/// <content>What is charted around suctioning: vital signs, the ventilator, circumstances, lengths, what is done to the airway.</content>
internal sealed partial class HistoryChart
{
    // The rows of a pass's own column.
    private void Practice(DateTimeOffset at, string? key, string? act)
    {
        void Maybe(int percent, string concept, Func<Charted> value)
        {
            if (Chance(percent))
            {
                Row(concept, at, value(), key: key, act: act);
            }
        }

        Maybe(12, "suction-indication", () => Pick<Charted>(
            Coded("coarse-breath-sounds"), Coded("visible-secretions", words: true), new Charted.Words("Routine"), new Charted.Words("per protocol, q4h"), new Charted.Words("rattling")));
        Maybe(18, "suction-system", () => Coded(Pick("open", "open", "closed")));
        Maybe(6, "depth-technique", () => Coded(Pick("deep", "deep", "shallow")));
        Maybe(10, "hand-technique", () => Coded(Pick("clean", "clean", "sterile")));
        Maybe(_newborn ? 35 : 8, "saline-instilled", () => Pick<Charted>(
            new Charted.YesNo(true), new Charted.YesNo(false), new Charted.Number(Pick(0m, 0.2m, 0.5m, 0.6m, 0.7m, 2m, 5m), "mL"), new Charted.Number(5m, "cc", NumberForm.TextUnit)));
        Maybe(14, "insertion-depth", () => new Charted.Number(Pick(30m, 31m, 31.5m, 32m, 33m, 34m, 15m), "cm"));
        Maybe(6, "suction-reaction", () => Coded(Pick("none", "none", "desaturation", "bradycardia", "tachycardia", "arrhythmia", "bleeding", "hypotension", "bronchospasm")));
        Maybe(10, "ventilator-disconnected", () => new Charted.YesNo(Chance(80)));
        Maybe(8, "secretion-consistency", () => Coded(Pick("thick", "thin", "thick")));
        Maybe(4, "secretion-amount", () => Coded(Pick("scanty", "moderate", "copious", "none")));
        Maybe(5, "allowance-reason", () => Coded(AnyReason()));
        Maybe(4, "preoxygenation-duration", () => new Charted.Number(Pick(29m, 30m, 31m, 60m), "s"));
        // A reason for an earlier pass, at the edge of its day.
        if (Chance(4))
        {
            Row("allowance-reason", at + Pick(TimeSpan.FromHours(1), TimeSpan.FromHours(24), new TimeSpan(24, 0, 1), new TimeSpan(23, 59, 59)), Coded(AnyReason()));
        }
    }

    // More oxygen than before, at the edge of what a neonate may be given.
    private void MoreOxygen(DateTimeOffset at)
    {
        if (_newborn && Chance(40))
        {
            Row("fio2", at, new Charted.Number(Pick(35m, 36m, 40m, 41m, 50m), "%"));
        }
    }

    private string AnyReason() => Pick("thick-secretions", "order-specific", "other-with-text", "emergency", "shallow-ineffective", "suspected-obstruction");

    private void Vitals(DateTimeOffset start, DateTimeOffset end)
    {
        MoreOxygen(start.AddMinutes(-Pick(1, 2)));
        // Oxygen after it, back or not.
        if (Chance(22))
        {
            Row("fio2", end + Pick(TimeSpan.FromMinutes(5), new TimeSpan(0, 5, 1), TimeSpan.FromMinutes(10), new TimeSpan(0, 10, 1), TimeSpan.FromMinutes(30), TimeSpan.FromHours(2), new TimeSpan(2, 0, 1)), Oxygen());
        }

        if (Chance(65))
        {
            return;
        }

        var before = start - Pick(TimeSpan.FromMinutes(5), new TimeSpan(0, 5, 1), TimeSpan.FromMinutes(1), TimeSpan.Zero);
        var after = end + Pick(TimeSpan.FromMinutes(5), new TimeSpan(0, 5, 1), TimeSpan.FromSeconds(30), TimeSpan.FromMinutes(2));
        foreach (var at in new[] { before, after })
        {
            if (Chance(85))
            {
                Row("spo2", at, new Charted.Number(Pick(98m, 95m, 94m, 93m, 90m, 89m, 85m, 80m, 79m), "%"));
            }

            if (Chance(80))
            {
                Row("heart-rate", at, new Charted.Number(Pick(80m, 120m, 50m, 49m, 150m, 151m, 100m, 99m), "/min"));
            }
        }

        if (Chance(15))
        {
            Row("respiratory-rate", after, new Charted.Number(18m, "/min"));
        }
    }

    private void Circumstance(string concept, DateTimeOffset start)
    {
        Row(concept, start.AddMinutes(random.Next(0, 300)), new Charted.YesNo(true));
        if (Chance(30))
        {
            Row(concept, start.AddMinutes(random.Next(301, 700)), new Charted.YesNo(false));
        }
    }

    private void Background(DateTimeOffset start)
    {
        foreach (var concept in new[] { "lung-injury", "bleeding-risk" })
        {
            if (Chance(18))
            {
                Circumstance(concept, start);
            }
        }

        if (Chance(_newborn ? 90 : 10))
        {
            Row("body-weight", start.AddHours(-Pick(0, 1, 40, 48)), Pick<Charted>(new Charted.Number(2.5m, "kg"), new Charted.Number(3000m, "g"), new Charted.Number(3m, "kg")));
        }

        if (Chance(_newborn ? 50 : 4))
        {
            Row("surfactant-given", start.AddHours(-Pick(0, 2, 7)), new Charted.YesNo(Chance(90)));
        }

        if (Chance(45))
        {
            Row("tube-length", start.AddMinutes(Pick(0, 30)), new Charted.Number(Pick(28m, 30m, 29.5m), "cm"));
            if (Chance(65))
            {
                Row("adapter-length", start.AddMinutes(Pick(0, 30)), new Charted.Number(Pick(1.5m, 2m), "cm"));
            }
        }

        if (Chance(_newborn ? 95 : 15))
        {
            Row("fio2", start.AddMinutes(-Pick(5, 30)), new Charted.Number(Pick(25m, 30m, 40m, 89m, 90m), "%"));
        }

        if (Chance(10))
        {
            Row("tube-depth", start, new Charted.Number(22m, "cm"));
        }
    }

    // A round at the bedside.
    private void Round(DateTimeOffset at)
    {
        for (var n = random.Next(1, 4); n > 0; n--)
        {
            switch (random.Next(6))
            {
                case 0 or 1:
                    Row("cuff-pressure", at, Pick(
                        new Charted.Number(Pick(19.9m, 20m, 25m, 30m, 30.1m, 35m), "cm[H2O]"), new Charted.Number(Pick(14m, 14.7m, 15m, 22m, 22.1m, 23m), "mm[Hg]"),
                        new Charted.Number(25m, "cmH2O", NumberForm.Text)));
                    break;
                case 2:
                    Row("peep", at, new Charted.Number(Pick(5m, 9.9m, 10m, 12m), "cm[H2O]"));
                    break;
                case 3:
                    Row("airway-assessed", at, new Charted.YesNo(Chance(90)));
                    break;
                case 4:
                    Row("fio2", at, Pick<Charted>(new Charted.Number(60m, "%"), new Charted.Number(0.59m, "1"), new Charted.Number(0.4m, "1"), new Charted.Number(30m, "%"), new Charted.Number(2m, "1")));
                    break;
                default:
                    Row("allowance-reason", at, Coded(AnyReason()));
                    break;
            }
        }
    }

    // Outlets of the unit, read with nothing attached; each in its own place or as a Device.
    private void Outlets(DateTimeOffset start)
    {
        if (!Chance(15))
        {
            return;
        }

        string outlet;
        if (Chance(50))
        {
            var place = NewId("bay");
            _places.Add(place);
            outlet = "Location/" + place;
        }
        else
        {
            var thing = new Thing(NewId("outlet"), "wall-vacuum-outlet");
            _things.Add(thing);
            outlet = thing.Reference;
        }

        var at = start;
        for (var n = random.Next(1, 4); n > 0; n--)
        {
            RowAbout(outlet, "full-line-vacuum", at, random.Next(8) switch
            {
                < 4 => new Charted.Number(Pick(299.9m, 300m, 301m, 250m, 500m, -450m), "mm[Hg]"),
                4 => new Charted.Number(Pick(300m, 250m, 350m), "mm[Hg]", NumberForm.Ucum, Pick("<", ">", ">=")),
                < 7 => new Charted.Number(Pick(40m, 39.9m, 39.95m, 55m), "kPa"),
                _ => new Charted.Number(350m, null, NumberForm.TextUnit),
            });
            at += Pick(TimeSpan.FromMinutes(1), TimeSpan.FromHours(5));
        }
    }

    private DateTimeOffset? Calibration(DateTimeOffset start) =>
        Pick<DateTimeOffset?>(null, start.AddMonths(-12), start.AddMonths(-12).AddHours(5), start.AddMonths(-3), start.AddMonths(-20));

    private void RowAbout(string about, string concept, DateTimeOffset at, Charted value) =>
        _rows.Add(new(NewId("row"), concept, value, at, null, null, null, null, null, "final", at.AddMinutes(5), ImmutableArray<(string, Charted)>.Empty) { About = about });
}
