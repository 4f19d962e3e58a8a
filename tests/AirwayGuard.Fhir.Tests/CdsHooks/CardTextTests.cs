using AirwayGuard.Fhir.CdsHooks;

namespace AirwayGuard.Fhir.Tests.CdsHooks;

/// <summary>What was charted is shown on a card as it stands, and does nothing there.</summary>
public sealed class CardTextTests
{
    [Theory]
    [InlineData("", "")]
    [InlineData("120-150 mmHg, as needed (q2h); 7.5 mm!", "120-150 mmHg, as needed (q2h); 7.5 mm!")]
    [InlineData("mm[Hg]", "mm\\[Hg\\]")]
    [InlineData("*a* _b_ ~~c~~ `d`", "\\*a\\* \\_b\\_ \\~\\~c\\~\\~ \\`d\\`")]
    [InlineData("![x](http:y)", "!\\[x\\](http:y)")]
    [InlineData("<img src=x onerror=y>", "&lt;img src=x onerror=y&gt;")]
    [InlineData("&lt;b&gt;", "&amp;lt;b&amp;gt;")]
    [InlineData("a|b", "a\\|b")]
    [InlineData("# h", "\\# h")]
    [InlineData("- a - b", "\\- a - b")]
    [InlineData("+ a", "\\+ a")]
    [InlineData("===", "\\=\\=\\=")]
    [InlineData(":-:", "\\:\\-\\:")]
    [InlineData("1. a 2. b", "1\\. a 2. b")]
    [InlineData("12) a", "12\\) a")]
    [InlineData("7.5 mm", "7\\.5 mm")]
    [InlineData("a\\*", "a\\\\\\*")]
    [InlineData("    code", "code")]
    [InlineData("a\r\n\n# b\t\u0000c\u2028d  ", "a \\# b c d")]
    [InlineData("12\u202E34\u2066 \u200Bx\u00ADy", "12 34 x y")]
    [InlineData("https://x.test/a", "https:\u200B//x.test/a")]
    [InlineData("see WWW.x.test", "see WWW\u200B.x.test")]
    [InlineData("a@x.test", "a@\u200Bx.test")]
    [InlineData("mailto:a@x.test", "mailto:a@\u200Bx.test")]
    [InlineData("\u00e9\u4e2d\U0001FAC1", "\u00e9\u4e2d\U0001FAC1")]
    public void Nothing_in_a_text_is_more_than_text(string charted, string expected) => Assert.Equal(expected, CardText.Escaped(charted));

    [Fact]
    public void Half_a_character_becomes_the_one_that_stands_for_none() => Assert.Equal("a\uFFFDb", CardText.Escaped("a" + (char)0xD800 + "b"));

    [Fact]
    public void Every_mark_of_Markdown_is_made_harmless_wherever_it_stands()
    {
        foreach (var mark in "\\`*_[]#|~")
        {
            Assert.Equal($"a\\{mark}b\\{mark}", CardText.Escaped($"a{mark}b{mark}"));
        }
    }

    [Theory]
    [InlineData(139)]
    [InlineData(10)]
    public void A_short_sentence_stays(int length) => Assert.Equal(new string('a', length), CardText.Short(new string('a', length)));

    [Theory]
    [InlineData(140)]
    [InlineData(141)]
    [InlineData(5000)]
    public void A_long_one_ends_at_a_word_under_140_characters(int length)
    {
        var sentence = string.Concat(Enumerable.Repeat("deep suction, ", 400))[..length];

        var text = CardText.Short(sentence);

        Assert.InRange(text.Length, 120, 139);
        Assert.EndsWith("…", text, StringComparison.Ordinal);
        Assert.StartsWith(text[..^1], sentence, StringComparison.Ordinal);
        Assert.Contains(text[..^1].Split(' ')[^1], (string[])["deep", "suction"], StringComparer.Ordinal);
    }

    [Theory]
    [InlineData("Deep\u0000suction\r\n\tordered \u2028", "Deep suction ordered")]
    [InlineData("  ", "")]
    public void A_sentence_is_one_line(string sentence, string expected) => Assert.Equal(expected, Shortened(sentence));

    [Fact]
    public void What_becomes_a_space_ends_a_word() => Assert.Equal(new string('a', 130) + "…", Shortened(new string('a', 130) + "\n" + new string('b', 20)));

    [Fact]
    public void A_word_that_fills_it_is_cut()
    {
        Assert.Equal(new string('a', 138) + "…", CardText.Short(new string('a', 140)));
        Assert.Equal(new string('a', 137) + "…", CardText.Short(new string('a', 137) + string.Concat(Enumerable.Repeat("\U0001FAC1", 9))));
    }

    [Fact]
    public void A_word_that_just_fits_is_kept() => Assert.Equal(new string('a', 130) + " bbbbbbb…", CardText.Short(new string('a', 130) + " bbbbbbb ccc"));

    private static string Shortened(string sentence) => CardText.Short(CardText.Plain(sentence));
}
