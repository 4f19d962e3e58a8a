using System.Globalization;
using System.Text;
using System.Text.Json;
using AirwayGuard.Core.Orders;
using Xunit;

namespace AirwayGuard.Core.Tests.Orders;

/// <summary>What holds of every text: how it is written changes nothing, what it says of other things changes nothing, and no text is too odd.</summary>
public sealed class OrderTextPropertiesTests
{
    private static readonly string[] Texts = [.. new[] { "working", "further" }.SelectMany(file => File.ReadLines(OrderFiles.PathOf(file))).Select(TextOf)];

    private static readonly string[] Words =
    [
        "suction", "ETT", "oral", "NG", "q2h", "every", "4", "hours", "PRN", "and", "or", "/", "no", "not", "do", "saline", "closed", "open", "deep", "120", "200", "mmHg", "kPa", "12", "Fr",
        "max", "<", ">", "-", "to", "from", "decrease", ",", ".", ";", ":", "\n", "(", ")", "if", "secretions", "unless", "hold", "until", "catheter", "size", "vacuum", "cuff", "25", "cmH2O", "1)", "q", "\u202D", "\u0000", "\uFFFF", "\uD83D",
    ];

    [Fact]
    public void CapitalLettersAndWideBlanksChangeNothing()
    {
        foreach (var text in Texts)
        {
            Assert.Equal((text, Values(text)), (text, Values(text.ToUpperInvariant())));
            Assert.Equal((text, Values(text)), (text, Values("  " + text.Replace(" ", "  ", StringComparison.Ordinal) + " ")));
        }
    }

    [Theory]
    [InlineData("\nPEEP 12 cmH2O, FiO2 60 %, SpO2 92, cuff 28 cmH2O.")]
    [InlineData("\nNG 16 Fr on free drainage. Chest drain at -20 cmH2O.")]
    [InlineData("\nMAP above 65 mmHg, ETCO2 35 to 40 mmHg.")]
    [InlineData("\nTurn q2h, mouth care q4h, tubing changed q72h.")]
    public void WhatIsSaidOfOtherThingsChangesNothing(string more)
    {
        var changed = Texts.Where(text => NamesSuction(text) && OrderTextReader.Read(text).Parts.Count > 0 && Values(text) != Values(text + "." + more));

        Assert.Empty(changed);
    }

    [Fact]
    public void NoTextIsTooOddAndEverySpanLiesInIt()
    {
        var random = new Random(20261130);
        for (var i = 0; i < 20_000; i++)
        {
            var text = new StringBuilder();
            for (var words = random.Next(1, 30); words > 0; words--)
            {
                text.Append(Words[random.Next(Words.Length)]).Append(random.Next(4) > 0 ? " " : "");
            }

            var read = OrderTextReader.Read(text.ToString(), isAirwaySuction: random.Next(2) == 0);

            var spans = read.Parts.SelectMany(part => part.Taken.Select(taken => taken.Span).Concat(part.Unread)).Concat(read.Unread).Concat(read.Forms.Select(form => form.Span));
            Assert.All(spans, span => Assert.True(span.Start >= 0 && span.Length > 0 && span.End <= text.Length, text.ToString()));
            Assert.All(read.Parts, part => Assert.True(part.VacuumLow is null || part.VacuumLow <= part.VacuumHigh, text.ToString()));
        }
    }

    // A form of sizes alone is known as one of suction by naming nothing else.
    private static bool NamesSuction(string text) => text.Contains("suc", StringComparison.OrdinalIgnoreCase) || text.Contains("sx", StringComparison.OrdinalIgnoreCase);

    private static string Values(string text) => string.Join(" || ", OrderTextReader.Read(text).Parts.Select(part =>
        string.Join(' ', InWords.Fields.Select(field => $"{field}={InWords.Of(part, field)}"))).Select((part, index) => string.Create(CultureInfo.InvariantCulture, $"{index} {part}")));

    private static string TextOf(string line)
    {
        using var order = JsonDocument.Parse(line);
        return order.RootElement.GetProperty("text").GetString()!;
    }
}
