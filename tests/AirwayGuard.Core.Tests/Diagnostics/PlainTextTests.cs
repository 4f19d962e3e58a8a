using AirwayGuard.Core.Diagnostics;
using Xunit;

namespace AirwayGuard.Core.Tests.Diagnostics;

public sealed class PlainTextTests
{
    [Theory]
    [InlineData("", "")]
    [InlineData("220 mmHg, Größe 7,5 – 😀", "220 mmHg, Größe 7,5 – 😀")]
    [InlineData("a\u001b[31mb", @"a\u001B[31mb")]
    [InlineData("a\r\n\tb\0", @"a\u000D\u000A\u0009b\u0000")]
    [InlineData("\u009b2J\u007f", @"\u009B2J\u007F")]
    [InlineData("a\u202eb\u2028c\u200b", @"a\u202Eb\u2028c\u200B")]
    public void What_moves_or_hides_text_is_written_out(string text, string visible) => Assert.Equal(visible, PlainText.Visible(text));

    [Fact]
    public void Half_a_pair_is_written_out()
    {
        Assert.Equal(@"\uD83D!", PlainText.Visible("\ud83d!"));
        Assert.Equal(@"!\uDE00", PlainText.Visible("!\ude00"));
    }

    [Theory]
    [InlineData("It is so", "AG2120  x: It is so. ")]
    [InlineData("It is so.", "AG2120  x: It is so. ")]
    [InlineData("Is it so?", "AG2120  x: Is it so? ")]
    [InlineData("", "AG2120  x: . ")]
    public void A_problem_is_one_line(string why, string begins) =>
        Assert.StartsWith(begins + Codes.ValueMissing.Advice[..5], new Problem(Codes.ValueMissing, "x", why).AsLine(), StringComparison.Ordinal);
}
