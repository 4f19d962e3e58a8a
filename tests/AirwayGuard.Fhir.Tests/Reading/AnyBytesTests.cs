using System.Text;
using AirwayGuard.Fhir.Reading;
using CsCheck;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>The reader answers for any bytes, and never by an exception.</summary>
public sealed class AnyBytesTests
{
    private static readonly byte[][] Seeds = [.. Samples.All.Select(Encoding.UTF8.GetBytes)];

    private static readonly Gen<byte[]> Mutated = Gen.Select(
        Pick.From(Seeds), Gen.Select(Gen.Int[0, 5000], Gen.Int[0, 5], Gen.Byte, Gen.Int[1, 40]).Array[1, 4]).Select(Mutate);

    [Fact]
    public void Mutated_resources_are_read_or_told_as_unreadable() =>
        Mutated.Sample(
            bytes =>
            {
                var read = Some.Read(bytes);
                Assert.True(read.Reading.Readable || read.Reading.Problems.Count > 0);
                Assert.True(read.Reading.Readable || read.Reading.Facts.Count == 0);
                Assert.All(read.Reading.Facts, fact => Assert.False(fact.About.IsNone || fact.Row.IsNone));
                new ChartedText().ValueOf(bytes, 0);
            },
            iter: 6_000,
            seed: "0000KOIPe303");

    internal static void SampleMutated(Action<byte[]> check, int iterations) => Mutated.Sample(check, iter: iterations, seed: "0000KOIPe303");

    [Theory]
    [InlineData("", "AG2003")]
    [InlineData(" ", "AG2003")]
    [InlineData("nonsense", "AG2003")]
    [InlineData("{\"resourceType\":\"Observation\"", "AG2003")]
    [InlineData("{\"resourceType\":\"Observation\"} x", "AG2003")]
    [InlineData("{\"resourceType\":\"Patient\",\"id\":\"p\"}{\"resourceType\":\"Patient\",\"id\":\"q\"}", "AG2003")]
    [InlineData("{\"resourceType\":\"Patient\",\"\\ud800esourceType\":1}", "AG2003")]
    [InlineData("{\"\\udc00esourceType\":1,\"resourceType\":\"Observation\"}", "AG2003")]
    [InlineData("[]", "AG2008")]
    [InlineData("3", "AG2008")]
    [InlineData("{}", "AG2008")]
    [InlineData("{\"resourceType\":5}", "AG2008")]
    [InlineData("{\"resourceType\":\"\"}", "AG2008")]
    [InlineData("{\"resourceType\":\"Foo\"}", "AG2004")]
    [InlineData("{\"resourceType\":\"observation\"}", "AG2004")]
    [InlineData("{\"resourceType\":\"Resource\"}", "AG2004")]
    [InlineData("{\"resourceType\":\"ActorDefinition\"}", "AG2004")]
    [InlineData("{\"resourceType\":\"Observation\",\"status\":\"final\"}", "AG2005")]
    [InlineData("{\"resourceType\":\"Observation\",\"valueString\":\"\\ud800\",\"status\":\"final\",\"subject\":{\"reference\":\"Patient/p\"}}", "AG2009")]
    public void What_is_no_resource_is_unreadable_with_its_code(string text, string code)
    {
        var read = Some.Read(text);

        Assert.Equal(code, read.Codes);
        Assert.False(read.Reading.Readable);
    }

    // R4's JSON has a null in a list only where a primitive has extensions and no value; elsewhere it is an element of a wrong form.
    [Theory]
    [InlineData("""{"resourceType":"Observation","id":"o","status":"final","code":{"coding":[null]},"subject":{"reference":"Patient/p"},"effectiveDateTime":"2026-03-01T09:55:00Z","identifier":[null]}""", true)]
    [InlineData("""{"resourceType":"Observation","id":"o","status":"final","code":{"coding":[[null]]},"subject":{"reference":"Patient/p"},"effectiveDateTime":"2026-03-01T09:55:00Z"}""", true)]
    [InlineData("""{"resourceType":"Observation","id":"o","status":"final","code":{"coding":"a"},"subject":{"reference":"Patient/p"},"effectiveDateTime":"2026-03-01T09:55:00Z"}""", true)]
    [InlineData("""{"resourceType":"Observation","id":"o","status":"final","resourceType":"Patient","code":{"coding":[null]},"subject":{"reference":"Patient/p"},"effectiveDateTime":"2026-03-01T09:55:00Z"}""", true)]
    [InlineData("""{"resourceType":"Patient","id":"p","name":[{"given":[null,"A"],"_given":[{"extension":[{"url":"u","valueString":"x"}]},null]}],"birthDate":"1961-04-05"}""", false)]
    public void A_null_in_a_list_of_elements_is_unreadable(string text, bool isUnreadable)
    {
        var read = Some.Read(text);

        Assert.Equal(isUnreadable, !read.Reading.Readable);
        Assert.Equal(isUnreadable, read.Reading.Problems.Count > 0);
        new ChartedText().ValueOf(System.Text.Encoding.UTF8.GetBytes(text), 0);
    }

    [Fact]
    public void Bytes_that_are_no_UTF_8_are_not_JSON() =>
        Assert.Equal("AG2003", Some.Read(new byte[] { (byte)'{', (byte)'"', 0xC3, 0x28, (byte)'"', (byte)':', (byte)'1', (byte)'}' }).Codes);

    [Theory]
    [InlineData(64, "")]
    [InlineData(65, "AG2007")]
    [InlineData(100_000, "AG2007")]
    public void Nesting_past_64_levels_is_too_deep(int depth, string code)
    {
        var json = "{\"resourceType\":\"Basic\",\"x\":" + new string('[', depth - 1) + new string(']', depth - 1) + "}";

        Assert.Equal(code, Some.Read(json).Codes);
    }

    [Fact]
    public void More_than_five_megabytes_are_too_large() =>
        Assert.Equal("AG2007", Some.Read("{\"resourceType\":\"Basic\",\"x\":\"" + new string('a', JsonCheck.LargestEntry) + "\"}").Codes);

    [Fact]
    public void A_type_of_R4_that_is_not_read_says_nothing()
    {
        var read = Some.Read("{\"resourceType\":\"Medication\",\"id\":\"m\"}");

        Assert.True(read.Reading.Readable);
        Assert.True(read.Reading.Self.IsNone);
        Assert.Empty(read.Codes);
    }

    [Fact]
    public void A_byte_order_mark_is_no_fault() =>
        Assert.Single(Some.Read("\uFEFF" + Some.Observation("suction-pass", "")).Reading.Facts);

    private static byte[] Mutate(byte[] seed, (int At, int How, byte What, int Length)[] changes)
    {
        var bytes = seed.ToList();
        foreach (var (place, how, what, length) in changes)
        {
            var at = place % Math.Max(1, bytes.Count);
            var count = Math.Min(length, bytes.Count - at);
            switch (how)
            {
                case 0:
                    bytes[at] = what;
                    break;
                case 1:
                    bytes.RemoveRange(at, count);
                    break;
                case 2:
                    bytes.InsertRange(at, bytes.GetRange(at, count));
                    break;
                case 3:
                    bytes.RemoveRange(at, bytes.Count - at);
                    break;
                case 4:
                    bytes[at] = (byte)"{}[]\",:0-\\ntf"[what % 13];
                    break;
                default:
                    bytes.Insert(at, what);
                    break;
            }

            if (bytes.Count == 0)
            {
                break;
            }
        }

        return [.. bytes];
    }
}
