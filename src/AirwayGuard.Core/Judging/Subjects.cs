using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Judging;

/// <summary>The subjects of a patient's care, kind by kind.</summary>
public static class Subjects
{
    public static int Count(Care care, SubjectKind kind) => kind switch
    {
        SubjectKind.Pass => care.Passes.Length,
        SubjectKind.Session => care.Sessions.Length,
        SubjectKind.Setting => care.Settings.Length,
        SubjectKind.Order => care.Orders.Length,
        SubjectKind.Catheter => care.LooseCatheters.Length,
        SubjectKind.Support => care.SupportRows.Length,
        SubjectKind.Outlet => care.OutletRows.Length,
        SubjectKind.Airway => care.AirwayNeeds.Length,
        SubjectKind.SuctionedAirway => care.SuctionedAirways.Length,
        SubjectKind.Cuff => care.CuffRows.Length,
        _ => 0,
    };

    public static Subject At(in Timeline timeline, Care care, SubjectKind kind, int index)
    {
        switch (kind)
        {
            case SubjectKind.Pass:
                ref readonly var pass = ref care.Passes[index];
                return new Subject(kind, index, pass.Identity, pass.From, pass.HasEnd ? pass.To : pass.From, pass.OffsetMinutes);
            case SubjectKind.Session:
                ref readonly var session = ref care.Sessions[index];
                return new Subject(kind, index, session.Identity, session.From, session.To, session.OffsetMinutes);
            case SubjectKind.Setting:
                ref readonly var setting = ref care.Settings[index];
                return new Subject(kind, index, setting.Identity, setting.At, setting.At, setting.OffsetMinutes);
            case SubjectKind.Catheter:
                return OfRow(kind, index, timeline.Facts[care.LooseCatheters[index]]);
            case SubjectKind.Support:
                return OfRow(kind, index, timeline.Facts[care.SupportRows[index]]);
            case SubjectKind.Outlet:
                return OfRow(kind, index, timeline.Facts[care.OutletRows[index]]);
            case SubjectKind.Airway:
                return OfAirway(kind, care, care.AirwayNeeds[index]);
            case SubjectKind.SuctionedAirway:
                return OfAirway(kind, care, care.SuctionedAirways[index]);
            case SubjectKind.Cuff:
                return OfRow(kind, index, timeline.Facts[care.CuffRows[index]]);
            default:
                ref readonly var order = ref care.Orders[index];
                return new Subject(kind, index, order.Identity, order.AuthoredOn, order.AuthoredOn, order.OffsetMinutes) { Airway = care.AirwayOfOrder(order.AuthoredOn) };
        }
    }

    private static Subject OfAirway(SubjectKind kind, Care care, in AirwayNeed need) =>
        new(kind, need.Airway, care.Airways[need.Airway].Identity, need.At, need.Until, need.OffsetMinutes);

    private static Subject OfRow(SubjectKind kind, int index, in Fact row) =>
        new(kind, index, row.Row, row.EffectiveFrom, row.EffectiveFrom, row.OffsetMinutes);
}
