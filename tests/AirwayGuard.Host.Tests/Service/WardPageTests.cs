using System.Xml.Linq;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Host.Service;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.Worker.Backlog;
using Microsoft.Extensions.Configuration;
using Xunit;

namespace AirwayGuard.Host.Tests.Service;

public sealed class WardPageTests
{
    private static readonly StandingRow Row = new(
        "Patient/alder-2", "vacuum-above-ceiling", "Vacuum above ceiling", "high", "Charted vacuum 250 mmHg is above the adult ceiling of 150 mmHg.",
        new DateTimeOffset(2026, 3, 1, 22, 5, 0, TimeSpan.FromHours(10)), "A later reading at or below the ceiling.");

    [Fact]
    public void AFinding_IsToldWhole()
    {
        var cells = BodyOf(Page([Row])).Descendants("tbody").Single().Descendants("tr").Single().Elements().ToList();

        Assert.Equal(
            ["Patient/alder-2", "high", "Vacuum above ceiling", Row.Say, "2026-03-01 12:05 UTC", Row.Clears],
            cells.Select(cell => cell.Value), StringComparer.Ordinal);
        Assert.Equal("2026-03-01T12:05:00Z", (string?)cells[4].Element("time")!.Attribute("datetime"));
    }

    [Fact]
    public void TheTable_HasHeadingsForEyesAndForScreenReaders()
    {
        var body = BodyOf(Page([Row, Row]));

        Assert.Equal(6, body.Descendants("th").Count(cell => (string?)cell.Attribute("scope") == "col"));
        Assert.Equal(2, body.Descendants("th").Count(cell => (string?)cell.Attribute("scope") == "row"));
        Assert.StartsWith("2 findings stand", body.Descendants("caption").Single().Value, StringComparison.Ordinal);
        Assert.All(body.Descendants("tbody").Descendants("td"), cell => Assert.NotEmpty((string)cell.Attribute("data-label")!));
    }

    [Fact]
    public void ThePage_NamesItsLanguage_FitsAPhone_AndRunsNothing()
    {
        var page = Page([Row]);

        Assert.Contains("<html lang=\"en\">", page, StringComparison.Ordinal);
        Assert.Contains("width=device-width", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("style=\"", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("http", page, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void WhatIsLate_SaysSo()
    {
        var since = BodyOf(Page([Row with { Late = true }])).Descendants("tbody").Single().Descendants("td").ElementAt(3);

        Assert.Equal("2026-03-01 12:05 UTC, known late", since.Value);
    }

    [Fact]
    public void WhatBelongsToOnePass_IsKeptApartFromWhatStands()
    {
        var body = BodyOf(Page([Row, Row with { Title = "Pass too long", Stands = false }]));

        Assert.Equal(["1 finding stands, highest severity first", "1 found, highest severity first"], body.Descendants("caption").Select(one => one.Value), StringComparer.Ordinal);
        Assert.Equal("Pass too long", body.Descendants("table").Last().Descendants("tbody").Descendants("td").ElementAt(1).Value);
        Assert.DoesNotContain(body.Descendants("table").Last().Descendants("td"), cell => (string?)cell.Attribute("data-label") == "What would clear it");
    }

    [Fact]
    public void WhatIsWithheld_IsListedApartWithItsReason_AndCounted()
    {
        var body = BodyOf(Page([Row, Row with { Patient = "Patient/rowan-1", Withheld = "Regulator on full line says it already" }]));

        Assert.StartsWith("1 finding stands", body.Descendants("caption").Single().Value, StringComparison.Ordinal);
        Assert.Contains("1 more is recorded and not shown on the server.", body.Descendants("p").Select(one => one.Value), StringComparer.Ordinal);
        var item = Assert.Single(body.Descendants("li")).Value;
        Assert.StartsWith("Vacuum above ceiling, high: Charted vacuum 250 mmHg", item, StringComparison.Ordinal);
        Assert.EndsWith("Withheld: Regulator on full line says it already. Patient/rowan-1 since 2026-03-01 12:05 UTC.", item, StringComparison.Ordinal);
    }

    [Fact]
    public void WhatIsWithheldOfManyAlike_IsSaidOnce_WithAllOfThem()
    {
        var (silent, other) = (Row with { Withheld = "its rule is silent" }, Row with { Patient = "Patient/rowan-1", Withheld = "Regulator on full line says it already" });

        var items = BodyOf(Page([silent, other, silent with { Patient = "Patient/hazel-1" }])).Descendants("ul").Single().Elements().ToList();

        Assert.Equal(2, items.Count);
        Assert.EndsWith("is silent. Patient/alder-2 since 2026-03-01 12:05 UTC, Patient/hazel-1 since 2026-03-01 12:05 UTC.", items[0].Value, StringComparison.Ordinal);
    }

    [Fact]
    public void WithNothingWithheld_ThePageDoesNotSpeakOfIt() => Assert.DoesNotContain("Withheld", Page([Row]), StringComparison.Ordinal);

    [Fact]
    public void WhatIsCharted_CannotBecomePartOfThePage()
    {
        var page = Page([Row with { Patient = "Patient/<b onclick=x>", Say = "</td><script>alert(1)</script>", Severity = "high\" onclick=\"x" }]);

        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<b ", page, StringComparison.Ordinal);
        Assert.DoesNotContain("\" onclick", page, StringComparison.Ordinal);
        Assert.Equal("</td><script>alert(1)</script>", BodyOf(page).Descendants("td").ElementAt(2).Value);
    }

    [Fact]
    public void WhatCouldNotBeTold_StandsInATableOfItsOwn_AndIsNoPass()
    {
        var gap = new NotToldRow("Catheter too wide", "tube inner diameter", ["Patient/alder-2", "Patient/hazel-1"], 14, Charted.Morning);
        var body = BodyOf(Page([], gap, gap with { Title = "<b>" }));

        var table = body.Descendants("table").Single(one => (string?)one.Attribute("id") == "not-told");
        Assert.Equal("2 gaps in what is charted, most often met first", table.Element("caption")!.Value);
        var row = table.Element("tbody")!.Elements("tr").First().Elements().ToList();
        Assert.Equal(
            ["Catheter too wide", "tube inner diameter", "14", "Patient/alder-2, Patient/hazel-1", "2026-03-02 08:00 UTC"], row.Select(cell => cell.Value), StringComparer.Ordinal);
        Assert.All(row, cell => Assert.NotEmpty((string)cell.Attribute("data-label")!));
        Assert.Equal("<b>", table.Element("tbody")!.Elements("tr").Last().Element("th")!.Value);
        Assert.Contains("That is neither a breach nor a pass.", body.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void WithNothingMissing_ThePageDoesNotSpeakOfIt() => Assert.DoesNotContain("Could not be told", Page([Row]), StringComparison.Ordinal);

    [Fact]
    public void WhatStandsInTheServicesWay_IsToldAboveTheLists_WithWhatToDo()
    {
        var (plan, _) = ServicePlan.Of(new ConfigurationBuilder().Build());
        var notes = new PageNotes([], ["AG5109 No answer from the server (Observation, Patient). It is tried again; check the connection if it lasts.", "<b>"]);

        var body = BodyOf(WardPage.Of([Row], [], plan!, plan!.Basis, notes, Charted.Morning));

        var troubles = body.Descendants("div").Single(one => (string?)one.Attribute("id") == "troubles");
        Assert.Equal(notes.Troubles, troubles.Descendants("li").Select(one => one.Value), StringComparer.Ordinal);
        Assert.True(troubles.IsBefore(body.Descendants("table").First()));
        Assert.DoesNotContain("troubles", Page([Row]), StringComparison.Ordinal);
    }

    [Fact]
    public void TroublesAreToldOncePerCode_WithTheirPlaces_AndWhatIsSetAsideIsCounted()
    {
        var notes = PageNotes.Of(
            new ServiceState { IsReady = true }, new BacklogState(TimeSpan.Zero, false, 0, 0, null, false), null, [("Observation", Codes.NoAnswer), ("Patient", Codes.NoAnswer)], [("AG5106", 3)],
            new LedgerState(default, 0, 0, 0, 0, 3, 0));

        Assert.Equal(
            [
                $"{Codes.NoAnswer.Id} {Codes.NoAnswer.Title} (Observation, Patient). {Codes.NoAnswer.Advice}",
                "AG5106 3 set aside: not read or not sent until somebody looks. \"airwayguard parked list\" names them.",
            ],
            notes.Troubles, StringComparer.Ordinal);
    }

    private static string Page(IReadOnlyList<StandingRow> rows, params IReadOnlyList<NotToldRow> notTold)
    {
        var (plan, _) = ServicePlan.Of(new ConfigurationBuilder().Build());
        return WardPage.Of(rows, notTold, plan!, plan!.Basis, PageNotes.None, Charted.Morning);
    }

    // The body is written so that a reader of XML can follow it too.
    private static XElement BodyOf(string page) => XElement.Parse(page[page.IndexOf("<body>", StringComparison.Ordinal)..page.IndexOf("</html>", StringComparison.Ordinal)]);
}
