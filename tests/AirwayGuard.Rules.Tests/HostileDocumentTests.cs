using System.Text;

namespace AirwayGuard.Rules.Tests;

/// <summary>Documents made to hurt: each gives a code and never an exception.</summary>
public sealed class HostileDocumentTests
{
    private static string[] Codes(byte[] document) => [.. RuleSetReader.Read(document, "hostile.yaml").Faults.Select(fault => fault.Code.Id)];

    private static string[] Codes(string document) => Codes(Encoding.UTF8.GetBytes(document));

    [Theory]
    [InlineData("[")]
    [InlineData("{a: ")]
    [InlineData("- ")]
    [InlineData("? ")]
    [InlineData("[{a: [")]
    public void Fifty_thousand_levels_are_too_deep(string opening) =>
        Assert.Equal(["AG3006"], Codes(string.Concat(Enumerable.Repeat(opening, 50_000))));

    [Fact]
    public void Deep_nesting_by_indentation_is_too_deep()
    {
        var document = new StringBuilder();
        for (var depth = 0; depth < 1000; depth++)
        {
            document.Append(' ', depth).Append("a:\n");
        }

        Assert.Equal(["AG3006"], Codes(document.ToString()));
    }

    // The parser gives an entry without a value for this.
    [Fact]
    public void A_colon_alone_on_the_last_line_after_a_list_is_no_YAML() => Assert.Contains("AG3005", Codes("a: 1\nb:\n  - c: 2\n: "), StringComparer.Ordinal);

    [Fact]
    public void Exactly_twenty_levels_are_read()
    {
        Assert.Equal(["AG3104"], Codes(new string('[', 20) + new string(']', 20)));
        Assert.Equal(["AG3006"], Codes(new string('[', 21) + new string(']', 21)));
    }

    [Fact]
    public void An_alias_bomb_is_refused_before_anything_is_built_of_it()
    {
        var bomb = new StringBuilder("a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n");
        for (var level = 1; level < 30; level++)
        {
            bomb.Append(System.Globalization.CultureInfo.InvariantCulture, $"a{level}: &a{level} [{string.Join(", ", Enumerable.Repeat($"*a{level - 1}", 10))}]\n");
        }

        var codes = Codes(bomb.ToString());

        Assert.Equal(30, codes.Count(code => code == "AG3008"));
        Assert.Equal(290, codes.Count(code => code == "AG3007"));
        Assert.Equal(320, codes.Length);
    }

    [Fact]
    public void A_document_that_is_its_own_alias_is_refused() => Assert.Equal(["AG3008", "AG3007"], Codes("&a [*a]"));

    [Fact]
    public void Two_megabytes_are_too_large_and_one_is_not()
    {
        Assert.Equal(["AG3003"], Codes(new byte[2 * 1024 * 1024]));
        Assert.Equal(["AG3003"], Codes(new string('#', 1_048_577)));
        Assert.Equal(["AG3010"], Codes(new string('#', 1_048_576)));
    }

    [Theory]
    [InlineData("")]
    [InlineData("   \n\n")]
    [InlineData("# only a remark\n")]
    [InlineData("---\n")]
    [InlineData("---\n...\n")]
    public void A_document_that_holds_nothing_is_empty(string document) => Assert.Equal(["AG3010"], Codes(document));

    [Theory]
    [InlineData(new byte[] { 0xFF, 0xFE, (byte)'a', 0 }, 1, 1)]
    [InlineData(new byte[] { (byte)'a', (byte)'\n', (byte)'b', 0xC3, 0x28 }, 2, 2)]
    [InlineData(new byte[] { 0x7F, (byte)'E', (byte)'L', (byte)'F', 2, 1, 1, 0 }, 1, 1)]
    [InlineData(new byte[] { (byte)'a', (byte)':', (byte)'\n', 0, (byte)'x' }, 2, 1)]
    [InlineData(new byte[] { 0xED, 0xA0, 0x80 }, 1, 1)]
    public void Bytes_that_are_not_text_are_refused_at_their_place(byte[] document, int line, int column)
    {
        var fault = Assert.Single(RuleSetReader.Read(document, "hostile.yaml").Faults);

        Assert.Equal(("AG3004", line, column), (fault.Code.Id, fault.Line, fault.Column));
    }

    [Fact]
    public void What_follows_a_nul_is_not_passed_over() => Assert.Equal(["AG3004"], Codes(Documents.Valid + "\0junk"));

    [Fact]
    public void A_byte_order_mark_and_carriage_returns_do_no_harm_and_move_no_place()
    {
        Assert.Empty(RuleSetReader.Read((byte[])[0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes(Documents.Valid)], "bom.yaml").Faults);
        Assert.Empty(Documents.Read(Documents.Valid.ReplaceLineEndings("\r\n")).Faults);

        var wrong = Documents.With("    stands: regulator", "    stands: patient").ReplaceLineEndings("\r\n");
        var fault = Assert.Single(RuleSetReader.Read((byte[])[0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes(wrong)], "bom.yaml").Faults);
        Assert.Equal((24, 13), (fault.Line, fault.Column));
    }

    [Theory]
    [InlineData("rules:\n\t- id: x\n", 2, 1)]
    [InlineData("schema: 1\nrules:\n  - id: x\n\t  judges: [setting]\n", 4, 1)]
    [InlineData("schema: 1\nrules:\n  - id: x\n    \tjudges: [setting]\n", 4, 5)]
    [InlineData("rules:\r\n\t- id: x\r\n", 2, 1)]
    [InlineData("schema: 1\nrules:\n  - id: x\n    say: |\n      \ttext\n\tdo: x\n", 6, 1)]
    public void Tabs_for_indentation_are_not_YAML_and_told_at_their_place(string document, int line, int column)
    {
        var fault = Assert.Single(RuleSetReader.Read(Encoding.UTF8.GetBytes(document), "hostile.yaml").Faults);

        Assert.Equal(("AG3005", line, column), (fault.Code.Id, fault.Line, fault.Column));
        Assert.Contains("tab", fault.What, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("# a remark\twith a tab\n")]
    [InlineData("a: |\n  \ttext\n")]
    [InlineData("a: \"b\tc\"\t# and a remark\n")]
    [InlineData("\ta: b\n")]
    public void A_tab_that_indents_nothing_is_no_fault_of_its_own(string document) => Assert.DoesNotContain("AG3005", Codes(document), StringComparer.Ordinal);

    [Fact]
    public void What_is_wrong_before_a_harmless_tab_is_told_where_it_is()
    {
        var fault = Assert.Single(RuleSetReader.Read("a: [b\nc: }\nd: |\n  \ttext\n"u8.ToArray(), "hostile.yaml").Faults);

        Assert.NotEqual(4, fault.Line);
        Assert.DoesNotContain("tab", fault.What, StringComparison.Ordinal);
    }

    [Fact]
    public void A_flood_of_faults_is_cut_with_a_code_that_says_so()
    {
        var codes = Codes(string.Concat(Enumerable.Range(0, 60_000).Select(i => $"k{i}: 1\n")));

        Assert.Equal(1001, codes.Length);
        Assert.Contains("AG3012", codes, StringComparer.Ordinal);
    }

    [Fact]
    public void A_key_of_a_megabyte_is_quoted_in_short()
    {
        var faults = RuleSetReader.Read(Encoding.UTF8.GetBytes("? " + new string('k', 1_000_000) + "\n: 1\n"), "hostile.yaml").Faults;

        Assert.All(faults, fault => Assert.InRange(fault.ToString().Length, 10, 400));
        Assert.Contains(faults, fault => fault.Code.Id == "AG3102");
    }

    [Theory]
    [InlineData("just text")]
    [InlineData("- a\n- b\n")]
    [InlineData("42")]
    [InlineData("? [a, b]\n: c\n")]
    [InlineData("{[a]: b}")]
    [InlineData("%YAML 9.9\n---\na: b\n")]
    [InlineData("%TAG ! tag:example.org,2026:\n---\n!x a: b\n")]
    [InlineData("a: b: c")]
    [InlineData("'")]
    [InlineData("!")]
    [InlineData("!<")]
    [InlineData("&")]
    [InlineData("*")]
    [InlineData("|9\n x")]
    [InlineData(">-1+\n")]
    [InlineData("\"\\uD800\"")]
    [InlineData("\"\\x")]
    [InlineData("]")]
    [InlineData("@a")]
    [InlineData("`a")]
    [InlineData("...")]
    [InlineData("--- ---")]
    [InlineData("schema: 1\nrules: {}\nsources: []\n")]
    [InlineData("schema: 1\nrules: [[], {}, x]\nsources: {a: }\nname: {}\nversion: []\ntitle: ''\n")]
    public void Odd_documents_give_codes(string document)
    {
        var reading = RuleSetReader.Read(Encoding.UTF8.GetBytes(document), "hostile.yaml");

        Assert.Null(reading.RuleSet);
        Assert.NotEmpty(reading.Faults);
        Assert.All(reading.Faults, fault => Assert.StartsWith("AG3", fault.Code.Id, StringComparison.Ordinal));
    }

    [Fact]
    public void Three_thousand_mutilated_copies_of_a_valid_document_are_read_or_refused_without_an_exception()
    {
        var random = new Random(20261125);
        for (var round = 0; round < 3000; round++)
        {
            var reading = Documents.Read(Mutilated.Of(Documents.Valid, random));

            Assert.Equal(reading.RuleSet is null, reading.Faults.Count > 0);
        }
    }
}
