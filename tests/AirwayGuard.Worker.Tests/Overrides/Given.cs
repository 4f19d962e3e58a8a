using System.Globalization;
using System.Text;
using System.Text.Json;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Overrides;

namespace AirwayGuard.Worker.Tests.Overrides;

/// <summary>Cards as they were given and reported on; all invented.</summary>
internal static class Given
{
    public const string Vacuum = "vacuum-above-ceiling", Wide = "catheter-too-wide";

    public static readonly DateTimeOffset Noon = new(2026, 3, 2, 12, 0, 0, TimeSpan.Zero);

    public static Guid Id(int number) => new($"00000000-0000-4000-8000-{number:D12}");

    public static CardHistory Card(int number, string check, params CardFeedback[] reports) =>
        new(Id(number), "suction-order-sign", "order-sign", check, Severity.High, Noon.AddMinutes(number), [.. reports]);

    public static IEnumerable<CardHistory> Cards(int from, int count, string check, params CardFeedback[] reports) =>
        Enumerable.Range(from, count).Select(number => Card(number, check, reports));

    public static CardFeedback Accepted(int minute = 1, string comment = "") => new(Guid.Empty, CardOutcome.Accepted, Noon.AddMinutes(minute), "", "", "", comment, []);

    public static CardFeedback Overridden(string code = "", string system = Core.Ports.OverrideReasons.System, string comment = "", int minute = 1) =>
        new(Guid.Empty, CardOutcome.Overridden, Noon.AddMinutes(minute), code.Length == 0 ? "" : system, code, "", comment, []);

    public static OverrideReport Report(IEnumerable<CardHistory> cards, bool withComments = false) => OverrideFigures.Of([.. cards], null, null, withComments);

    public static string Text(OverrideReport report)
    {
        using var into = new StringWriter(CultureInfo.InvariantCulture);
        OverrideText.Write(report, into);
        return into.ToString();
    }

    public static string Csv(OverrideReport report)
    {
        using var into = new StringWriter(CultureInfo.InvariantCulture);
        OverrideCsv.Write(report, into);
        return into.ToString();
    }

    public static JsonElement Json(OverrideReport report)
    {
        using var document = JsonDocument.Parse(JsonText(report));
        return document.RootElement.Clone();
    }

    public static string JsonText(OverrideReport report)
    {
        using var into = new MemoryStream();
        OverrideJson.Write(report, into);
        return Encoding.UTF8.GetString(into.ToArray());
    }
}
