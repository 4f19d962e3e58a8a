using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Time since a regulator in airway use was calibrated, in months by the calendar. It falls due in one timeline: that of the patient
/// who has the regulator then, else the device's own.
/// </summary>
public static class RegulatorCalibration
{
    public static readonly Measure Measure = new(
        "time-since-calibration", Dimension.Duration, Unit.Month, [SubjectKind.Due],
        [Concepts.CalibratedOn, Concepts.DeviceKind, Concepts.SuctionUse],
        TimeSpan.FromDays(1200), TimeSpan.Zero, [], MayBeMissing: false,
        "time since a vacuum regulator in airway use was calibrated",
        DueTimes.Elapsed)
    {
        Runs = List,
    };

    /// <summary>A date without an offset has begun somewhere this long before it does at UTC.</summary>
    private const long LatestOffset = 14 * TimeSpan.TicksPerHour;

    private static void List(in Timeline timeline, Care care, ICollection<DueRun> into)
    {
        var regulators = new HashSet<Entity>();
        foreach (var (device, kind) in care.DeviceKinds)
        {
            if (kind == Answers.VacuumRegulator)
            {
                regulators.Add(device);
            }
        }

        foreach (ref readonly var setting in care.Settings)
        {
            if (!setting.Regulator.IsNone)
            {
                regulators.Add(setting.Regulator);
            }
        }

        foreach (var regulator in regulators)
        {
            if ((timeline.Patient.Kind == EntityKind.Patient || timeline.Patient == regulator)
                && IsInAirwayUse(timeline, care, care.Owners, regulator))
            {
                ListOne(timeline, care, care.Owners, regulator, into);
            }
        }
    }

    private static void ListOne(in Timeline timeline, Care care, RegulatorOwners owners, Entity regulator, ICollection<DueRun> into)
    {
        var line = new Line(LineKind.Regulator, regulator);
        var dates = Dates(timeline, care, regulator);
        if (dates.Count == 0)
        {
            if (FirstUse(care, regulator, out var offset) is var first and < long.MaxValue)
            {
                into.Add(new DueRun(line, first, long.MaxValue, long.MinValue, -1, -1, offset, Missing.CalibrationDate));
            }

            return;
        }

        var spans = new List<(long From, long To)>();
        owners.OwnSpans(timeline.Patient, regulator, spans);
        for (var i = 0; i < dates.Count; i++)
        {
            var (fact, since, slack) = dates[i];
            if (since - LatestOffset > care.JudgedAt)
            {
                AddFuture(timeline, care, line, fact, spans, into);
                continue;
            }

            var (until, endedBy) = i + 1 < dates.Count ? (dates[i + 1].Since, dates[i + 1].Fact) : (long.MaxValue, -1);
            foreach (var span in spans)
            {
                into.Add(new DueRun(
                    line, since, until, long.MinValue, fact, endedBy, timeline.Facts[fact].OffsetMinutes, NotAfter: span.To, OnlyFrom: span.From, Slack: slack,
                    InSlack: slack > TimeSpan.TicksPerDay ? Missing.CalibrationDay : Missing.Nothing));
            }
        }
    }

    // Told of whose regulator it is now, from when it was charted.
    private static void AddFuture(in Timeline timeline, Care care, Line line, int fact, List<(long From, long To)> spans, ICollection<DueRun> into)
    {
        ref readonly var date = ref timeline.Facts[fact];
        if (!care.ProblemList.Contains((Codes.FutureCalibration, date.Row)))
        {
            care.ProblemList.Add((Codes.FutureCalibration, date.Row));
        }

        if (spans.Exists(span => span.From <= care.JudgedAt && care.JudgedAt < span.To))
        {
            var since = date.Has(FactMarks.Timeless) ? Math.Min(FirstUse(care, line.Entity, out _), care.JudgedAt) : date.EffectiveFrom;
            into.Add(new DueRun(line, since, long.MaxValue, long.MinValue, fact, -1, date.OffsetMinutes, Missing.CalibrationInPast));
        }
    }

    // The device's own word comes first; else a pass that used it, or a row of airway suction it is named with.
    private static bool IsInAirwayUse(in Timeline timeline, Care care, RegulatorOwners owners, Entity regulator)
    {
        var uses = timeline.Of(Concepts.SuctionUse);
        for (var i = uses.Length - 1; i >= 0; i--)
        {
            if (uses[i].About == regulator && uses[i].Value.Kind is ValueKind.Code or ValueKind.Unreadable)
            {
                return uses[i].Value.Kind == ValueKind.Code && uses[i].Value.Symbol == Answers.Airway;
            }
        }

        if (owners.IsUsedInAPass(regulator) || (timeline.Patient == regulator && owners.HasPatient(regulator)))
        {
            return true;
        }

        return FirstUse(care, regulator, out _) < long.MaxValue;
    }

    private static long FirstUse(Care care, Entity regulator, out short offset)
    {
        var first = long.MaxValue;
        offset = 0;
        foreach (ref readonly var pass in care.Passes)
        {
            if (pass.Regulator == regulator)
            {
                (first, offset) = (pass.From, pass.OffsetMinutes);
                break;
            }
        }

        foreach (ref readonly var setting in care.Settings)
        {
            if (setting.Regulator == regulator && !setting.UseUnknown && setting.At < first)
            {
                (first, offset) = (setting.At, setting.OffsetMinutes);
                break;
            }
        }

        return first;
    }

    // By time; of two that say the same one counts. A date without a time runs from its first instant, and is over only with its last.
    private static List<(int Fact, long Since, long Slack)> Dates(in Timeline timeline, Care care, Entity regulator)
    {
        var dates = new List<(int Fact, long Since, long Slack)>();
        var facts = timeline.Of(Concepts.CalibratedOn);
        for (var i = 0; i < facts.Length; i++)
        {
            ref readonly var fact = ref facts[i];
            if (fact.Value.Kind == ValueKind.Date && care.DeviceOfMetric.GetValueOrDefault(fact.About, fact.About) == regulator)
            {
                var (since, slack) = Instant(fact);
                dates.Add((timeline.FirstOf(Concepts.CalibratedOn) + i, since, slack));
            }
        }

        dates.Sort((x, y) => x.Since != y.Since ? x.Since.CompareTo(y.Since) : x.Slack != y.Slack ? x.Slack.CompareTo(y.Slack) : x.Fact.CompareTo(y.Fact));
        for (var i = dates.Count - 1; i > 0; i--)
        {
            if (dates[i].Since == dates[i - 1].Since)
            {
                dates.RemoveAt(i);
            }
        }

        return dates;
    }

    private static (long Since, long Slack) Instant(in Fact fact)
    {
        var (year, month, day) = ((int)(fact.Value.Digits / 10000), (int)(fact.Value.Digits / 100 % 100), (int)(fact.Value.Digits % 100));
        var precision = fact.Value.Scale;
        var start = new DateTime(year, precision >= 6 ? month : 1, precision >= 8 ? day : 1, 0, 0, 0, DateTimeKind.Utc);
        var offset = fact.OffsetMinutes * TimeSpan.TicksPerMinute;
        if (!fact.Has(FactMarks.Timeless) && precision >= 8 && fact.EffectiveFrom + offset >= start.Ticks && fact.EffectiveFrom + offset < start.AddDays(1).Ticks)
        {
            return (fact.EffectiveFrom, 0);
        }

        var end = precision >= 8 ? start.AddDays(1) : precision >= 6 ? start.AddMonths(1) : start.AddYears(1);
        return (start.Ticks, end.Ticks - start.Ticks);
    }
}
