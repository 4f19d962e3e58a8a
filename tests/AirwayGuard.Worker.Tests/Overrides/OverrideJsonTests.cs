using System.Text.Json;
using AirwayGuard.Worker.Overrides;
using Xunit;
using static AirwayGuard.Worker.Tests.Overrides.Given;

namespace AirwayGuard.Worker.Tests.Overrides;

public sealed class OverrideJsonTests
{
    [Fact]
    public void ACheckHasItsCountsRateIntervalAndReasons()
    {
        var json = Json(Report([.. Cards(1, 182, Vacuum, Accepted()), .. Cards(200, 80, Vacuum, Overridden("emergency")), Card(300, Vacuum, Overridden("x", "urn:ehr")), Card(301, Vacuum)]));

        Assert.Equal(
            """{"check":"vacuum-above-ceiling","given":264,"accepted":182,"overridden":81,"answered":263,"notAnswered":1,"overrideRate":0.3080,"interval95":{"low":0.2553,"high":0.3662},"reasons":[{"reason":"emergency","count":80},{"reason":"urn:ehr|x","count":1}]}""",
            Flat(json.GetProperty("checks")[0]));
        Assert.Equal(
            """{"given":264,"accepted":182,"overridden":81,"answered":263,"notAnswered":1,"overrideRate":0.3080,"interval95":{"low":0.2553,"high":0.3662}}""", Flat(json.GetProperty("all")));
        Assert.Equal("""{"order-sign":264}""", Flat(json.GetProperty("givenByHook")));
        Assert.Equal(OverrideText.Caution, json.GetProperty("caution").GetString());
    }

    [Fact]
    public void WithNothingAnsweredRateAndIntervalAreNull_AndNeverNought()
    {
        var json = Json(Report([Card(1, Vacuum)]));

        Assert.All(
            [json.GetProperty("checks")[0], json.GetProperty("all"), Json(Report([])).GetProperty("all")],
            one => Assert.All(["overrideRate", "interval95"], name => Assert.Equal(JsonValueKind.Null, one.GetProperty(name).ValueKind)));
    }

    [Fact]
    public void WhatWasNotJudgedAndOfWhatTimeStandBesideTheSums()
    {
        var json = Json(OverrideFigures.Of([Card(1, "", Overridden("emergency")), Card(2, "")], Noon, null, false));

        Assert.Equal("""{"given":2,"accepted":0,"overridden":1,"answered":1,"notAnswered":1}""", Flat(json.GetProperty("notJudged")));
        Assert.Equal(0, json.GetProperty("all").GetProperty("given").GetInt32());
        Assert.Equal(("2026-03-02T12:00:00Z", null), (json.GetProperty("since").GetString(), json.GetProperty("until").GetString()));
    }

    [Fact]
    public void CommentsAreAListOnlyWhereTheyWereAskedFor()
    {
        var report = Report([Card(1, Vacuum, Overridden("x", "urn:ehr", "in \"their\"\nwords")), Card(2, "", Accepted(comment: "fine"))], withComments: true);

        Assert.Equal(
            """[{"card":"00000000-0000-4000-8000-000000000001","check":"vacuum-above-ceiling","at":"2026-03-02T12:01:00Z","outcome":"overridden","reason":"urn:ehr|x","comment":"in \"their\"\nwords","superseded":false},{"card":"00000000-0000-4000-8000-000000000002","check":null,"at":"2026-03-02T12:01:00Z","outcome":"accepted","reason":"none given","comment":"fine","superseded":false}]""",
            Flat(Json(report).GetProperty("comments")));
        Assert.False(Json(report with { Comments = null }).TryGetProperty("comments", out _));
    }

    private static string Flat(JsonElement element)
    {
        using var into = new MemoryStream();
        using (var json = new Utf8JsonWriter(into, new JsonWriterOptions { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping }))
        {
            element.WriteTo(json);
        }

        return System.Text.Encoding.UTF8.GetString(into.ToArray());
    }
}
