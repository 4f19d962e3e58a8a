using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Judging;

/// <summary>On which line a rule's finding about a subject stands, or its cannot-tell is counted.</summary>
internal static class Lines
{
    public static Line Of(Standing stands, in Subject subject, in Timeline timeline, Care care)
    {
        if (subject.Kind == SubjectKind.Due)
        {
            return care.DueRuns[subject.Index].Line;
        }

        if (subject.Kind == SubjectKind.Outlet)
        {
            return new Line(LineKind.Outlet, timeline.Patient);
        }

        if (subject.Kind is SubjectKind.Airway or SubjectKind.SuctionedAirway)
        {
            return new Line(LineKind.Airway, subject.Identity);
        }

        if (subject.Kind == SubjectKind.Order && stands is not (Standing.Airway or Standing.Episode))
        {
            return new Line(LineKind.Order, subject.Identity);
        }

        switch (stands)
        {
            case Standing.Regulator when subject.Kind == SubjectKind.Setting:
                return care.Settings[subject.Index].Line;
            case Standing.Airway:
                var airway = subject.Kind == SubjectKind.Order ? subject.Airway : care.AirwayAt(subject.From);
                return airway < 0
                    ? (subject.Kind == SubjectKind.Order ? new Line(LineKind.Order, subject.Identity) : care.EpisodeLine(subject.From, timeline.Patient))
                    : new Line(LineKind.Airway, care.Airways[airway].Identity);
            case Standing.Episode when subject.Kind == SubjectKind.Order:
                var episode = care.EpisodeOfOrder(subject.From);
                return episode < 0 ? new Line(LineKind.Patient, timeline.Patient) : new Line(LineKind.Episode, care.Episodes[episode].Identity);
            default:
                return care.EpisodeLine(subject.From, timeline.Patient);
        }
    }
}
