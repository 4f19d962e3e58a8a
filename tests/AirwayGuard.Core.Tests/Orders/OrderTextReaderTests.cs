using System.Text;
using System.Text.Json;
using AirwayGuard.Core.Orders;
using Xunit;

namespace AirwayGuard.Core.Tests.Orders;

/// <summary>Orders in words, what is taken from them, and what is not.</summary>
public sealed class OrderTextReaderTests
{
    // The forms that orders come in; what each says by the contract's paragraph on orders.
    [Theory]
    [InlineData("Sx ETT q2h & PRN, -200 mmHg, 14Fr, lavage 5cc NS", "vacuumHigh=200 vacuumUnit=mm[Hg] catheterFr=14 everyHours=2 byClock=true asNeeded=true saline=true")]
    [InlineData("ETT suction, do not exceed 120", "[do not exceed 120]")]
    [InlineData("ETT suction, vacuum do not exceed 120", "vacuumHigh=120")]
    [InlineData("assess q2h, suction PRN", "byClock=false asNeeded=true")]
    [InlineData("ETT suction 100-150 mmHg", "vacuumLow=100 vacuumHigh=150 vacuumUnit=mm[Hg]")]
    [InlineData("suction max 20 kPa", "vacuumHigh=20 vacuumUnit=kPa")]
    [InlineData("suction less than 20 kPa", "vacuumHigh=20 vacuumExclusive=true vacuumUnit=kPa")]
    [InlineData("suction, no saline", "saline=false")]
    [InlineData("suction prn, size 8 cath", "catheterFr=8 byClock=false asNeeded=true")]
    [InlineData("Suction q2h PRN", "everyHours=2 byClock=false asNeeded=true")]
    [InlineData("Suction q2h and PRN", "everyHours=2 byClock=true asNeeded=true")]
    [InlineData("Suction q4h/PRN", "everyHours=4 asNeeded=true [q4h/PRN]")]
    [InlineData("Suction no more than q2h", "everyHours=2 byClock=false")]
    [InlineData("Suction q30min", "everyHours=0.5 byClock=true")]
    [InlineData("Suction q4-6h", "everyHours=4 byClock=true")]
    [InlineData("Suction every shift", "byClock=true")]
    [InlineData("Suction per protocol", "")]
    [InlineData("decrease suction vacuum from 200 to 120 mmHg", "vacuumHigh=120 vacuumUnit=mm[Hg]")]
    [InlineData("stop q2h suction, suction PRN", "byClock=false asNeeded=true")]
    [InlineData("No deep suction. Suction prn.", "byClock=false asNeeded=true depth=shallow")]
    [InlineData("Suction saline only if thick plugs", "saline=true")]
    [InlineData("Full line suction for ETT", "mode=full-line [Full line]")]
    [InlineData("1) ETT suction PRN 12 Fr\n2) Nasotracheal suction q4h 10 Fr", "catheterFr=12 byClock=false asNeeded=true || catheterFr=10 everyHours=4 byClock=true")]
    public void AnOrderSaysWhatItSays(string text, string expected) => Assert.Equal(expected, InWords.Of(text, OrderTextReader.Read(text)));

    // A number that belongs to something else is never vacuum or catheter.
    [Theory]
    [InlineData("NG to suction at 200 mmHg, 16 Fr", "")]
    [InlineData("Chest drain -20 cmH2O suction; ETT suction prn", "byClock=false asNeeded=true")]
    [InlineData("Oral suction q2h, 14 Fr, 200 mmHg", "")]
    [InlineData("ETT 8.0 at 22 cm, PEEP 12 cmH2O, cuff 28 cmH2O, SpO2 92, suction prn", "byClock=false asNeeded=true")]
    [InlineData("MAP goal 65 mmHg, ETCO2 40 mmHg; suction prn", "byClock=false asNeeded=true")]
    [InlineData("Foley 16 Fr. Suction prn.", "byClock=false asNeeded=true")]
    [InlineData("Suction prn. Change suction catheter q72h.", "byClock=false asNeeded=true")]
    [InlineData("Suction prn. Turn q2h, mouth care q4h.", "byClock=false asNeeded=true")]
    [InlineData("Suction for ETCO2 above 50 mmHg", "byClock=false asNeeded=true")]
    [InlineData("Suction prn, zorbing at 300 mmHg", "byClock=false asNeeded=true [300 mmHg]")]
    public void ANumberOfSomethingElseIsNotTaken(string text, string expected) => Assert.Equal(expected, InWords.Of(text, OrderTextReader.Read(text)));

    [Theory]
    [InlineData("Do not suction", "doNotSuction=true")]
    [InlineData("Hold suction until reviewed", "doNotSuction=true")]
    [InlineData("Do not withhold suction; prn", "byClock=false asNeeded=true")]
    [InlineData("Suctioning is not contraindicated", "")]
    [InlineData("Do not suction via the nose", "")]
    [InlineData("Do not suction deeper than 9 cm", "depth=9 cm")]
    [InlineData("Do not suction routinely", "byClock=false")]
    [InlineData("Do not suction if platelets are low", "[Do not suction if]")]
    [InlineData("Suction PRN. Do not suction.", "[PRN] [Do not suction]")]
    [InlineData("Do not use 14 Fr. Suction with 10 Fr.", "catheterFr=10")]
    public void ABanIsOfTheWholeActOrIsNone(string text, string expected)
    {
        var read = OrderTextReader.Read(text);

        Assert.Equal(expected, InWords.Of(text, read));
    }

    // The lower number alone would be a wrong upper end.
    [Theory]
    [InlineData("Suction prn 120 mmHg, if ineffective increase to 200 mmHg", "vacuumHigh=200 vacuumUnit=mm[Hg] byClock=false asNeeded=true")]
    [InlineData("Suction prn 12 Fr; if blocked 16 Fr", "catheterFr=16 byClock=false asNeeded=true")]
    [InlineData("Suction prn 150 mmHg. If bloody, drop to 100 mmHg.", "vacuumHigh=150 vacuumUnit=mm[Hg] byClock=false asNeeded=true")]
    [InlineData("Suction prn, 100 + 20 mmHg", "byClock=false asNeeded=true [100] [20 mmHg]")]
    [InlineData("Suction prn 100 mmHg, may go up by 20 if thick", "byClock=false asNeeded=true [100 mmHg] [20]")]
    [InlineData("Suction prn 120 mmHg if MAP is above 65 mmHg", "vacuumHigh=120 vacuumUnit=mm[Hg] byClock=false asNeeded=true")]
    public void AStepUnderAConditionIsTheUpperEndOrNothingIs(string text, string expected) => Assert.Equal(expected, InWords.Of(text, OrderTextReader.Read(text)));

    [Theory]
    [InlineData("Stop suction at 200 mmHg. Suction prn 120 mmHg.", "vacuumHigh=120 vacuumUnit=mm[Hg] byClock=false asNeeded=true")]
    [InlineData("14 Fr stopped, use 12 Fr. Suction prn.", "catheterFr=12 byClock=false asNeeded=true")]
    [InlineData("Previous: suction 14 Fr 200 mmHg. Current: suction prn 120 mmHg.", "vacuumHigh=120 vacuumUnit=mm[Hg] byClock=false asNeeded=true")]
    [InlineData("Suction prn 200 mmHg, make that 120 mmHg", "vacuumHigh=120 vacuumUnit=mm[Hg] byClock=false asNeeded=true")]
    [InlineData("Suction prn 200 mmHg no 120 mmHg", "byClock=false asNeeded=true [200 mmHg] [120 mmHg]")]
    [InlineData("Suction prn 120 mmHg. Reduce to 100 mmHg after a day.", "byClock=false asNeeded=true [120 mmHg] [100 mmHg]")]
    [InlineData("Supersedes: suction prn, 12 Fr", "[Supersedes: suction prn, 12 Fr]")]
    public void WhatIsStoppedReplacedOrCorrectedIsNotRead(string text, string expected) => Assert.Equal(expected, InWords.Of(text, OrderTextReader.Read(text)));

    [Theory]
    [InlineData("Suction prn. Do not suction on insertion.", "byClock=false asNeeded=true")]
    [InlineData("Suction prn. No suctioning during feeds.", "byClock=false asNeeded=true")]
    [InlineData("Suction prn. Do not suction vigorously or alone.", "byClock=false asNeeded=true")]
    [InlineData("Suction prn. No suction after gastrectomy.", "byClock=false asNeeded=true [No suction after]")]
    [InlineData("Do not suction without indication", "byClock=false asNeeded=true")]
    [InlineData("No suction - fresh anastomosis", "doNotSuction=true")]
    [InlineData("No suction for 6 h after surfactant", "doNotSuction=true")]
    [InlineData("No suction until seen by ENT", "doNotSuction=true")]
    public void ATimeAMannerOrAPhaseThatIsForbiddenIsNoBan(string text, string expected) => Assert.Equal(expected, InWords.Of(text, OrderTextReader.Read(text)));

    [Theory]
    [InlineData("Suction prn. Saline: off", "byClock=false asNeeded=true saline=false")]
    [InlineData("Suction prn. Saline (none)", "byClock=false asNeeded=true saline=false")]
    [InlineData("Suction prn. \u274C saline", "byClock=false asNeeded=true saline=false")]
    [InlineData("Suction prn. Np saline", "byClock=false asNeeded=true [saline]")]
    [InlineData("Suction prn. Not before 100 % oxygen was given", "byClock=false asNeeded=true preoxygenate=true")]
    [InlineData("Suction prn, not shallow - deep", "byClock=false asNeeded=true depth=deep")]
    [InlineData("Suction prn. Closed head injury.", "byClock=false asNeeded=true")]
    public void ADenialMayBeAnAnswerOrASignAndDeniesWhatItStandsBeside(string text, string expected) => Assert.Equal(expected, InWords.Of(text, OrderTextReader.Read(text)));

    [Fact]
    public void MarksOfTheWayOfWritingArePassedOverAndPlacesStay()
    {
        const string text = "\u202BETT suction\u202C \u200F120 mmHg\u200E, 12\u200E4 Fr";
        var part = Assert.Single(OrderTextReader.Read(text).Parts);

        Assert.Equal("120 mmHg", text.Substring(Assert.Single(part.Taken).Span.Start, Assert.Single(part.Taken).Span.Length));
        Assert.Null(part.CatheterFr);
    }

    [Theory]
    [InlineData("")]
    [InlineData("   \r\n\t ")]
    [InlineData("Continue current plan.")]
    [InlineData("\u0000\u0001\u0002")]
    [InlineData("....,,,;;;|||///---")]
    public void WhereThereIsNoOrderNoneIsMade(string text) => Assert.Empty(OrderTextReader.Read(text).Parts);

    [Theory]
    [InlineData("1OO mmHg ETT suction", "[1OO]")]
    [InlineData("ETT suction l20 mmHg", "[l20 mmHg]")]
    [InlineData("ETT suction 1,200 mmHg", "[1,200 mmHg]")]
    [InlineData("ETT suction 1.200.000 mmHg", "[1.200.000 mmHg]")]
    [InlineData("ETT suction 12\u200B0 mmHg", "0 mmHg]")]
    [InlineData("ETT suction \uFF11\uFF12\uFF10 mmHg", "vacuumHigh=120 vacuumUnit=mm[Hg]")]
    [InlineData("ETT suction \u0661\u0662\u0660 mmHg", "")]
    [InlineData("ETT suction 99999999999999999999999999999999999999 mmHg", "[99999999999999999999999999999999999999 mmHg]")]
    public void ANumberThatCanBeReadInTwoWaysIsNotRead(string text, string expected) => Assert.Contains(expected, InWords.Of(text, OrderTextReader.Read(text)), StringComparison.Ordinal);

    [Fact]
    public void WhereCharactersTurnTheTextAroundNothingIsTaken()
    {
        var read = OrderTextReader.Read("ETT suction \u202E021\u202C mmHg");

        Assert.Empty(read.Parts);
        Assert.Equal([new TextSpan(0, 22)], read.Unread);
    }

    [Fact]
    public void EveryValuePointsAtItsCharacters()
    {
        const string text = "Suction ETT PRN, max 120 mmHg, 12 Fr, no saline";
        var taken = Assert.Single(OrderTextReader.Read(text).Parts).Taken.Select(one => $"{one.Field} {text.Substring(one.Span.Start, one.Span.Length)}");

        Assert.Equal(["AsNeeded PRN", "Catheter 12 Fr", "Saline saline", "Vacuum max 120 mmHg"], taken.Order(StringComparer.Ordinal), StringComparer.Ordinal);
    }

    // The Joint Commission, Official "Do Not Use" List, 5 March 2009: trailing zero, lack of leading zero, Q.D. and Q.O.D.; cc among those considered.
    [Theory]
    [InlineData("Suction 8.0 Fr", ErrorProneKind.TrailingZero)]
    [InlineData("Saline .5 mL, suction prn", ErrorProneKind.NoLeadingZero)]
    [InlineData("Saline 2 cc, suction prn", ErrorProneKind.CubicCentimetres)]
    [InlineData("Suction q.o.d.", ErrorProneKind.DailyAbbreviation)]
    public void AnErrorProneFormIsReadAndNamed(string text, ErrorProneKind kind)
    {
        var read = OrderTextReader.Read(text);

        Assert.Equal(kind, Assert.Single(read.Forms).Kind);
        Assert.True(Assert.Single(read.Parts).SaysAnything);
    }

    // Read over by a person when they were written down; a change of any is to be looked at.
    [Fact]
    public void FurtherOrdersAreReadAsBefore()
    {
        var changed = new List<string>();
        foreach (var line in File.ReadLines(OrderFiles.PathOf("further")))
        {
            using var order = JsonDocument.Parse(line);
            var text = order.RootElement.GetProperty("text").GetString()!;
            var now = InWords.Of(text, OrderTextReader.Read(text));
            if (now != order.RootElement.GetProperty("read").GetString())
            {
                changed.Add($"{order.RootElement.GetProperty("id").GetString()}: {now}");
            }
        }

        Assert.Empty(changed);
    }

    // Twice the text, at most somewhat over twice the steps: whatever repeats, with or without ends of sentences.
    [Theory]
    [InlineData("Suction ETT q2h & PRN, -200 mmHg, 14 Fr, no saline. ")]
    [InlineData("suction with saline prn 12 Fr ")]
    [InlineData("120 ")]
    [InlineData("12,")]
    [InlineData("if secretions and ")]
    [InlineData("vacuum to at : of ")]
    [InlineData("no ")]
    [InlineData("((((")]
    [InlineData("q")]
    [InlineData("- / . ")]
    [InlineData("change from open to closed with oxygen 100 % before ")]
    [InlineData("stop 12 Fr and suction ")]
    [InlineData("old: new: ")]
    [InlineData("if use 120 mmHg ")]
    [InlineData("do not suction after in on ")]
    public void StepsGrowWithTheLengthOfTheText(string repeated)
    {
        var (once, twice) = (Steps(2_000), Steps(4_000));

        Assert.InRange(twice, once, once * 2.2);

        double Steps(int times) => OrderTextReader.Read(new StringBuilder().Insert(0, repeated, times).ToString(), isAirwaySuction: true).Steps;
    }

    [Fact]
    public void ALongNoteIsReadWhole()
    {
        var note = new StringBuilder("Suction ETT q2h, 150 mmHg.\n").Insert(0, "Family visited and was updated by the team.\n", 2_500).ToString();

        Assert.True(note.Length > 100_000);
        Assert.Equal("vacuumHigh=150 vacuumUnit=mm[Hg] everyHours=2 byClock=true", InWords.Of(note, OrderTextReader.Read(note)));
    }
}
