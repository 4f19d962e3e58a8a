using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Findings;
using AirwayGuard.Worker.Checking;

namespace AirwayGuard.Worker.Surveying;

/// <summary>The survey for a person to read.</summary>
public static class SurveyText
{
    public static void Write(SurveyReport report, TextWriter into)
    {
        Line(into, $"Rule set {report.Rules.Name} {report.Rules.Version}");
        Line(into, report.AsOf is { } at ? "Surveyed as of " + CheckReportJson.TimeText(at.UtcTicks) : "Nothing carried a time.");
        into.WriteLine();
        foreach (var unit in report.Units)
        {
            Line(into, unit.Unit.Length == 0 ? "Unit not known (the outlet names no Location, or its Location names none that it is part of)"
                : unit.Name.Length == 0 ? unit.Unit : $"{unit.Name} ({unit.Unit})");
            foreach (var outlet in unit.Outlets)
            {
                Write(outlet, into);
            }

            into.WriteLine();
        }

        Line(into, Closing(report));
    }

    /// <summary>A time that has passed: <c>12 min</c>, <c>5 h</c>, <c>9 d 4 h</c>.</summary>
    public static string Ago(TimeSpan age) => age.TotalHours < 1 ? FormattableString.Invariant($"{(int)age.TotalMinutes} min")
        : age.TotalDays < 1 ? FormattableString.Invariant($"{(int)age.TotalHours} h")
        : FormattableString.Invariant($"{(int)age.TotalDays} d {age.Hours} h");

    private static void Write(SurveyedOutlet outlet, TextWriter into)
    {
        var place = outlet.Place.Length == 0 ? "place not known" : outlet.PlaceName.Length == 0 ? outlet.Place : outlet.PlaceName;
        Line(into, $"  {outlet.Outlet}  {place}");
        Line(into, "    Full line    " + (outlet.Reading is { } reading && outlet.Age is { } age
            ? $"{FactWords.Of(reading.Value)}  {CheckReportJson.TimeText(reading.EffectiveFrom)}, {Ago(age)} ago"
            : "never read"));
        Line(into, "    Supply       " + Words(outlet.Supply, "in order", "not judged by this rule set"));
        Line(into, "    Survey       " + SurveyWords(outlet));
        if (outlet.Regulators.IsEmpty)
        {
            Line(into, "    Limited by   none named");
        }

        foreach (var regulator in outlet.Regulators)
        {
            Line(into, "    Limited by   " + Words(regulator));
        }
    }

    private static string SurveyWords(SurveyedOutlet outlet)
    {
        var limit = outlet.Survey.Limit is { } held ? Wording.Amount(held.Low, held.Unit) : "";
        return outlet.Survey.Answer == SurveyAnswer.Breach && outlet.Age is { } age
            ? string.Create(CultureInfo.InvariantCulture, $"NOT SURVEYED for {(int)age.TotalDays} d; {limit} are allowed")
            : Words(outlet.Survey, $"read within {limit}", "no interval is set");
    }

    private static string Words(SurveyVerdict verdict, string pass, string notJudged) => verdict.Answer switch
    {
        SurveyAnswer.Breach => "LOW: " + verdict.Say,
        SurveyAnswer.CannotTell => "cannot tell: missing " + verdict.Missing,
        SurveyAnswer.Pass => pass,
        _ => notJudged,
    };

    private static string Words(SurveyedRegulator regulator)
    {
        var how = regulator.Named ? "named with the reading" : "at the same place";
        var set = regulator.Set is { } value ? $"set to {FactWords.Of(value.Value)} at {CheckReportJson.TimeText(value.EffectiveFrom)}" : "no set value charted in 12 h";
        var mode = regulator.Mode is { } charted ? $", mode {Answers.Code(charted.Value.Symbol)}" : "";
        return $"{regulator.Regulator} ({how}), {set}{mode}";
    }

    private static string Closing(SurveyReport report)
    {
        var outlets = report.Outlets.ToArray();
        if (outlets.Length == 0)
        {
            return "No outlet is charted: there is no full-line reading of a Location or Device, and no Device of kind wall-vacuum-outlet.";
        }

        return string.Create(
            CultureInfo.InvariantCulture,
            $"{outlets.Length} {(outlets.Length == 1 ? "outlet" : "outlets")}: {outlets.Count(one => one.Supply.Answer == SurveyAnswer.Breach)} low, {outlets.Count(one => one.Survey.Answer == SurveyAnswer.Breach)} not surveyed in time, {outlets.Count(one => one.Reading is null)} never read. {CheckReportText.Caution}");
    }

    // Names are the input's; a line of ours stays one line.
    private static void Line(TextWriter into, string text) => into.WriteLine(PlainText.Visible(text));
}
