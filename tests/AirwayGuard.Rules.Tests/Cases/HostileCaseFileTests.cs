using System.Text;
using AirwayGuard.Rules.Cases;

namespace AirwayGuard.Rules.Tests.Cases;

/// <summary>Files of cases made to hurt: each gives codes, or cases that can be judged, and never an exception.</summary>
public sealed class HostileCaseFileTests
{
    private static string[] Codes(string document) => [.. CaseDocuments.Read(document).Faults.Select(fault => fault.Code.Id)];

    [Theory]
    [InlineData("", "AG3501")]
    [InlineData("# only a remark\n", "AG3501")]
    [InlineData("---\n...\n", "AG3501")]
    [InlineData("just text", "AG3104")]
    [InlineData("- a\n- b\n", "AG3104")]
    [InlineData("a: b: c", "AG3005")]
    [InlineData("&a [*a]", "AG3008")]
    [InlineData("schema: 1\ncases: {}\n", "AG3104")]
    [InlineData("schema: 1\ncases: []\n", "AG3104")]
    [InlineData("schema: 1\ncases: [[], {}, x]\n", "AG3104")]
    [InlineData("schema: 2\ncases: x\n", "AG3104")]
    [InlineData("schema: 1\ncases:\n  - { case: a, about: [], chart: {} }\n", "AG3104")]
    [InlineData("schema: 1\ncases:\n  - { case: a, about: b, chart: [[]], things: [[]], finds: [[]], cannot-tell: [[]], born: [], stay: {}, as-of: [] }\n", "AG3104")]
    public void Odd_documents_give_codes(string document, string code)
    {
        var file = CaseDocuments.Read(document);

        Assert.Contains(code, file.Faults.Select(fault => fault.Code.Id), StringComparer.Ordinal);
        Assert.All(file.Faults, fault => Assert.StartsWith("AG3", fault.Code.Id, StringComparison.Ordinal));
    }

    [Fact]
    public void Fifty_thousand_levels_are_too_deep() => Assert.Equal(["AG3006"], Codes(string.Concat(Enumerable.Repeat("[{a: [", 50_000))));

    [Fact]
    public void Two_megabytes_are_too_large() => Assert.Equal(["AG3003"], Codes(new string('#', 2 * 1024 * 1024)));

    [Fact]
    public void Bytes_that_are_not_text_are_refused() =>
        Assert.Equal("AG3004", Assert.Single(CaseFileReader.Read((byte[])[(byte)'a', 0xC3, 0x28], "hostile.yaml").Faults).Code.Id);

    [Fact]
    public void A_flood_of_faults_is_cut_with_a_code_that_says_so()
    {
        var codes = Codes("schema: 1\ncases:\n" + string.Concat(Enumerable.Range(0, 20_000).Select(i => $"  - case: c{i}\n")));

        Assert.Equal(1001, codes.Length);
        Assert.Contains("AG3012", codes, StringComparer.Ordinal);
    }

    /// <summary>The largest numbers and the farthest days that can be written are judged like others.</summary>
    [Theory]
    [InlineData("at: 10:00, vacuum-pressure: 999999999999999999 kPa")]
    [InlineData("at: 10:00, vacuum-pressure: 0.000000000000000001 mmHg")]
    [InlineData("at: 10:00, suction-pass: yes, catheter-size: 999999999999999999 Fr, pass-duration: 999999999999999999 min, insertion-depth: 999999999999999999 cm, pass-count: 999999999999999999")]
    [InlineData("at: 10:00, airway-type: tracheal-tube, tube-inner-diameter: 0 mm, tube-length: 999999999999999999 cm, suction-pass: yes, catheter-size: 12 Fr")]
    [InlineData("at: 10:00, body-weight: 0 kg, suction-pass: yes, saline-instilled: 999999999999999999 mL")]
    [InlineData("at: 10:00, gestational-age-at-birth: 999999999999999999 wk, cuff-pressure: 999999999999999999 mmHg")]
    [InlineData("at: 1900-01-01 00:00, until: 2200-12-31 23:59, suction-pass: yes")]
    [InlineData("at: day -3000 00:00, airway-type: tracheostomy-tube")]
    [InlineData("at: 10:00, suction-pass: yes, preoxygenation: 999999999999999999 %, spo2: 999999999999999999 %, heart-rate: 999999999999999999 /min")]
    public void Extreme_charts_are_judged_or_refused_without_an_exception(string row) => ReadAndJudge(CaseDocuments.Charting(row).Replace("chart:", "born: 12 days\n    chart:", StringComparison.Ordinal));

    [Fact]
    public void A_thousand_mutilated_copies_of_a_valid_file_are_read_and_judged_or_refused_without_an_exception()
    {
        var random = new Random(20261130);
        for (var round = 0; round < 1000; round++)
        {
            ReadAndJudge(Mutilated.Of(CaseDocuments.Valid, random));
        }
    }

    private static void ReadAndJudge(string document)
    {
        var set = ShippedRuleSets.Load("strict-ranges").RuleSet!;
        var file = CaseDocuments.Read(document);
        Assert.All(file.Faults, fault => Assert.InRange(fault.ToString().Length, 10, 1000));
        foreach (var one in file.Faults.Count == 0 ? file.Cases : [])
        {
            Assert.NotNull(CaseComparison.Of(one, new CaseChart(one).Judge(set)));
        }
    }
}
