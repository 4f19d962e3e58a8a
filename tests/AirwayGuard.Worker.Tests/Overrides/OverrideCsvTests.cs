using System.Globalization;
using Xunit;
using static AirwayGuard.Worker.Tests.Overrides.Given;

namespace AirwayGuard.Worker.Tests.Overrides;

public sealed class OverrideCsvTests
{
    private const string Header = "row,check,reason,given,accepted,overridden,answered,notAnswered,overrideRate,low95,high95";

    [Fact]
    public void EachLineSaysWhatItCounts_AndEveryLineHasEveryCell()
    {
        var csv = Csv(Report([Card(1, Vacuum, Accepted()), Card(2, Vacuum, Overridden("emergency")), Card(3, Vacuum), Card(4, Wide), Card(5, "", Overridden("emergency"))]));

        Assert.Equal(
            string.Concat(
                Header, "\r\n",
                "check,catheter-too-wide,,1,0,0,0,1,,,\r\n",
                "check,vacuum-above-ceiling,,3,1,1,2,1,0.5000,0.0945,0.9055\r\n",
                "reason,vacuum-above-ceiling,emergency,,,1,,,,,\r\n",
                "all,,,4,1,1,2,2,0.5000,0.0945,0.9055\r\n",
                "not-judged,,,1,0,1,1,0,,,\r\n"),
            csv);
        Assert.All(csv.Split("\r\n", StringSplitOptions.RemoveEmptyEntries), line => Assert.Equal(Header.Count(one => one == ','), line.Count(one => one == ',')));
    }

    [Fact]
    public void OfNoCardThereAreTheHeaderAndTheSum() => Assert.Equal(Header + "\r\nall,,,0,0,0,0,0,,,\r\n", Csv(Report([])));

    [Theory]
    [InlineData("=1+1", "'=1+1")]
    [InlineData("+1", "'+1")]
    [InlineData("-1", "'-1")]
    [InlineData("@SUM(A1)", "'@SUM(A1)")]
    [InlineData("  =1+1", "'  =1+1")]
    [InlineData("\t=1+1", "\\u0009=1+1")]
    [InlineData("a=b", "a=b")]
    [InlineData("a,b", "\"a,b\"")]
    [InlineData("a\"b", "\"a\"\"b\"")]
    [InlineData("=a,\"b", "\"'=a,\"\"b\"")]
    [InlineData("a\r\nb", "a\\u000D\\u000Ab")]
    public void NoCellIsAFormulaOrBreaksALine(string check, string cell) =>
        Assert.Contains($"\r\ncheck,{cell},,1,0,0,0,1,,,\r\n", Csv(Report([Card(1, check)])), StringComparison.Ordinal);

    [Theory]
    [InlineData("https://airwayguard.example.org/fhir/CodeSystem/override-reason", "-1", "'-1")]
    [InlineData("https://ehr.example/a,b", "=1", "other")]
    [InlineData("https://ehr.example/a,b", "c", "\"https://ehr.example/a,b|c\"")]
    public void AReasonOfTheEhrIsGuardedToo(string system, string code, string cell) =>
        Assert.Contains($"\r\nreason,{Vacuum},{cell},,,1,,,,,\r\n", Csv(Report([Card(1, Vacuum, Overridden(code, system))])), StringComparison.Ordinal);

    [Fact]
    public void CommentsAreNeverInIt_EvenWhereTheReportHoldsThem() =>
        Assert.DoesNotContain("in their words", Csv(Report([Card(1, Vacuum, Overridden(comment: "in their words"))], withComments: true)), StringComparison.Ordinal);

    [Fact]
    public void NumbersAreWrittenTheSameWayInEveryCulture()
    {
        var report = Report([Card(1, Vacuum, Accepted()), Card(2, Vacuum, Overridden())]);
        var (csv, text, json) = (Csv(report), Text(report), JsonText(report));
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new CultureInfo("x") { NumberFormat = { NumberDecimalSeparator = ",", NegativeSign = "~" } };
            Assert.Equal((csv, text, json), (Csv(report), Text(report), JsonText(report)));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
