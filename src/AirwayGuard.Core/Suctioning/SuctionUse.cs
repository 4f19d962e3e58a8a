using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Suctioning;

/// <summary>What suction is used for: of a reading said by the row itself, a row of the same instant, or the device; of a pass by its own row.</summary>
internal static class SuctionUse
{
    private static readonly int Other = Answers.Of("other");

    // Charted, and nobody can tell as what: it cannot be read, or one row or instant says two things.
    private const int Unread = -1, Differs = -2;

    /// <returns>Index of the answer; 0 where nobody says, below 0 where what is said cannot be used.</returns>
    public static int Of(in Timeline timeline, Care care, int factIndex, Entity regulator)
    {
        ref readonly var fact = ref timeline.Facts[factIndex];
        var uses = timeline.Of(Concepts.SuctionUse);
        var own = care.PassWork.Uses.GetValueOrDefault(fact.Row);
        var (sameInstant, ofDevice, ofDeviceAt, isBesideOther) = (0, 0, long.MinValue, false);
        for (var i = 0; i < uses.Length; i++)
        {
            ref readonly var use = ref uses[i];
            if (!Says(use) || use.Row == fact.Row)
            {
                continue;
            }

            // A use that is a component of another row speaks of that one only.
            if (use.About == fact.About && use.EffectiveFrom == fact.EffectiveFrom && DeviceOf(care, use) == DeviceOf(care, fact)
                && !CarriesItsOwn(timeline, use))
            {
                var saysMore = care.PassWork.Others.Contains(use.Row) || care.PassWork.Unclear.Contains(use.Row);
                sameInstant = saysMore ? sameInstant : Both(sameInstant, use);
                isBesideOther |= saysMore;
            }

            if (!regulator.IsNone && use.About == regulator && (use.Has(FactMarks.Timeless) || use.EffectiveFrom <= fact.EffectiveFrom)
                && use.EffectiveFrom >= ofDeviceAt)
            {
                ofDevice = use.EffectiveFrom == ofDeviceAt ? Both(ofDevice, use) : Both(0, use);
                ofDeviceAt = use.EffectiveFrom;
            }
        }

        if (own == 0 && IsOther(sameInstant) && (IsTiedToPass(care, factIndex, fact.Row) || care.IsOfUnknownUse(factIndex)))
        {
            return Differs;
        }

        var said = own != 0 ? own : sameInstant != 0 ? sameInstant : ofDevice;
        return said == 0 && isBesideOther && care.PassOf(factIndex) < 0 ? Unread : said;
    }

    // By more than its time: part of its Procedure or panel, or of one column with it.
    private static bool IsTiedToPass(Care care, int factIndex, Entity row) => care.PassOf(factIndex) >= 0 && !care.PassWork.ByTime.Contains(row);

    /// <summary>What rows say of themselves: index of the answer, or below 0 where what is said cannot be used.</summary>
    public static void ReadRows(in Timeline timeline, Dictionary<Entity, int> uses)
    {
        foreach (ref readonly var use in timeline.Of(Concepts.SuctionUse))
        {
            if (Says(use) && !use.Has(FactMarks.Timeless))
            {
                uses[use.Row] = Both(uses.GetValueOrDefault(use.Row), use);
            }
        }
    }

    /// <summary>
    /// What is part of a Procedure of another suction is of that one, whatever it does not say of itself; where it says the airway, or cannot be
    /// read, nobody can tell.
    /// </summary>
    public static void ReadParts(in Timeline timeline, PassWork work)
    {
        HashSet<Entity>? others = null;
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.DoneTo && link.To == timeline.Patient && !work.Acts.Contains(link.From))
            {
                (others ??= []).Add(link.From);
            }
        }

        for (var i = 0; others is not null && i < timeline.Facts.Length; i++)
        {
            ref readonly var fact = ref timeline.Facts[i];
            if (fact.Row.Kind == EntityKind.Row && others.Contains(fact.Act))
            {
                var said = work.Uses.GetValueOrDefault(fact.Row);
                work.Uses[fact.Row] = said == 0 ? Other : IsOther(said) ? said : Differs;
                work.OtherActs.Add(fact.Act);
            }
        }
    }

    /// <summary>What orders and requests for equipment say of themselves; beside one that cannot be read an answer settles nothing.</summary>
    public static void ReadOrders(in Timeline timeline, Dictionary<Entity, int> uses)
    {
        foreach (ref readonly var use in timeline.Of(Concepts.SuctionUse))
        {
            if (Says(use) && use.About.Kind == EntityKind.Order)
            {
                uses[use.About] = Together(uses.GetValueOrDefault(use.About), use.Value.Kind == ValueKind.Unreadable ? Unread : use.Value.Symbol);
            }
        }
    }

    /// <summary>What two parts of one order say together: below 0 where they differ or one cannot be read.</summary>
    public static int Together(int one, int other) => one == 0 || one == other ? other : other == 0 ? one : Differs;

    /// <summary>Tells of each row that says two things.</summary>
    /// <param name="uses">What rows say of themselves.</param>
    public static void NoteTwo(Dictionary<Entity, int> uses, Care care)
    {
        foreach (var (row, use) in uses)
        {
            if (use == Differs && row.Kind == EntityKind.Row)
            {
                care.ProblemList.Add((Diagnostics.Codes.UsesDiffer, row));
            }
        }
    }

    /// <summary>Tells of rows that say another suction alone, beside a pass of the airway.</summary>
    public static void NoteBeside(in Timeline timeline, PassWork work, Care care)
    {
        foreach (ref readonly var use in timeline.Of(Concepts.SuctionUse))
        {
            if (work.PassOfRow.TryGetValue(use.Row, out var pass) && !work.Drafts[pass].IsOther && work.Drafts[pass].Use >= 0
                && IsOther(work.Uses.GetValueOrDefault(use.Row)) && !work.Others.Contains(use.Row) && !CarriesItsOwn(timeline, use))
            {
                care.ProblemList.Add((Diagnostics.Codes.UseBesidePass, use.Row));
            }
        }
    }

    /// <summary>What a Procedure of suctioning the airway serves where a row that is part of it says this: nobody knows where they differ.</summary>
    public static int BesideProcedure(int use, int row) => row == 0 || row == Answers.Airway ? use : Differs;

    /// <summary>Two uses are said, so that nobody knows.</summary>
    public static bool AreTwo(int use) => use == Differs;

    /// <summary>Another suction than the airway's is said to be meant.</summary>
    public static bool IsOther(int use) => use > 0 && use != Answers.Airway;

    /// <summary>A use charted as a row of its own, which is of no setting and no pass.</summary>
    public static bool IsAlone(in Timeline timeline, in Fact fact) =>
        fact.Concept == Concepts.SuctionUse && Says(fact) && !CarriesItsOwn(timeline, fact);

    private static bool Says(in Fact use) => use.Value.Kind is ValueKind.Code or ValueKind.Unreadable;

    // Beside an answer, one that cannot be read says nothing; two answers say that nobody knows.
    private static int Both(int said, in Fact use) =>
        use.Value.Kind == ValueKind.Unreadable ? (said == 0 ? Unread : said)
        : said is 0 or Unread || said == use.Value.Symbol ? use.Value.Symbol
        : Differs;

    private static bool CarriesItsOwn(in Timeline timeline, in Fact use)
    {
        foreach (var concept in (ReadOnlySpan<Concept>)[Concepts.VacuumPressure, Concepts.VacuumSet, Concepts.RegulatorMode, Concepts.SuctionPass])
        {
            var settings = timeline.Of(concept);
            for (var i = Timeline.FirstAfter(settings, use.EffectiveFrom) - 1; i >= 0 && settings[i].EffectiveFrom == use.EffectiveFrom; i--)
            {
                if (settings[i].Row == use.Row)
                {
                    return true;
                }
            }
        }

        return false;
    }

    private static Entity DeviceOf(Care care, in Fact fact) => care.DeviceOfMetric.GetValueOrDefault(fact.Device, fact.Device);
}
