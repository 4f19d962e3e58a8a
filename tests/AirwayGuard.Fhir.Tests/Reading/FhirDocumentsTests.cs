using System.Text;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;

namespace AirwayGuard.Fhir.Tests.Reading;

public sealed class FhirDocumentsTests
{
    private const string Patient = "{\"resourceType\":\"Patient\",\"id\":\"p1\",\"meta\":{\"versionId\":\"3\",\"lastUpdated\":\"2026-03-01T10:00:00+11:00\"}}";
    private const string Row = "{\"resourceType\":\"Observation\",\"id\":\"o1\"}";

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(100_000)]
    public async Task One_resource_is_one_arrival_however_it_trickles_in(int chunk)
    {
        var item = Assert.Single(await ReadAsync("\uFEFF\n" + Patient + "\n ", "a.json", chunk));

        Assert.Null(item.Problem);
        Assert.Equal("a.json", item.Where);
        Assert.Equal(("Patient", "p1", "3"), (item.Arrival!.Type, item.Arrival.Id, item.Arrival.Version));
        Assert.Equal(new DateTimeOffset(2026, 2, 28, 23, 0, 0, TimeSpan.Zero), item.Arrival.KnownAt);
        Assert.Equal(Patient, Encoding.UTF8.GetString(item.Arrival.Body.Span));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(13)]
    [InlineData(100_000)]
    public async Task A_bundle_is_read_entry_by_entry(int chunk)
    {
        var bundle = $$$"""
            {"resourceType":"Bundle","type":"history","link":[{"url":"x"}],"entry":[
             {"fullUrl":"urn:uuid:11111111-0000-4000-8000-000000000000","resource":{"resourceType":"Observation"},"request":{"method":"POST","url":"Observation"}},
             {"request":{"method":"DELETE","url":"Observation/gone"},"response":{"status":"204","etag":"W/\"2\"","lastModified":"2026-03-01T10:00:00Z"}},
             {"resource":{{{Patient}}}}, {"search":{"mode":"match"}}, {"resource":{"resourceType":"Bundle","entry":[]}}, 7
            ],"total":5}
            """;

        var items = await ReadAsync(bundle, "b.json", chunk);

        Assert.Equal(["b.json#entry 1", "b.json#entry 2", "b.json#entry 3", "b.json#entry 4", "b.json#entry 5", "b.json#entry 6"], items.Select(item => item.Where), StringComparer.Ordinal);
        Assert.Equal("11111111-0000-4000-8000-000000000000", items[0].Arrival!.Id);
        Assert.Equal((ArrivalKind.Deletion, "Observation", "gone", "2"), (items[1].Arrival!.Kind, items[1].Arrival!.Type, items[1].Arrival!.Id, items[1].Arrival!.Version));
        Assert.Equal(Patient, Encoding.UTF8.GetString(items[2].Arrival!.Body.Span));
        Assert.Equal(["AG2302", "AG2301", "AG2302"], items.Skip(3).Select(item => item.Problem!.Code.Id), StringComparer.Ordinal);
    }

    [Fact]
    public async Task A_bundle_whose_type_stands_last_is_still_a_bundle()
    {
        var items = await ReadAsync("{\"entry\":[{\"resource\":" + Patient + "},{\"resource\":" + Row + "}],\"resourceType\":\"Bundle\"}", "s.json");

        Assert.Equal(["Patient", "Observation"], items.Select(item => item.Arrival!.Type!), StringComparer.Ordinal);
    }

    [Fact]
    public async Task Lines_are_told_by_content_and_a_broken_one_spares_the_others()
    {
        var items = await ReadAsync(Patient + "\n\n{\"resourceType\":\"Observation\"\r\n" + Row + "\n{\"resourceType\":\"Bundle\",\"entry\":[{\"resource\":" + Row + "}]}", "-");

        Assert.Equal(["-:1", "-:3", "-:4", "-:5#entry 1"], items.Select(item => item.Where), StringComparer.Ordinal);
        Assert.Equal("AG2003", Some.Read(items[1].Arrival!.Body).Codes);
        Assert.Equal("Patient", items[0].Arrival!.Type);
    }

    [Theory]
    [InlineData("x.ndjson")]
    [InlineData("x.txt")]
    public async Task A_broken_first_line_spares_the_others(string label)
    {
        var items = await ReadAsync("{\"resourceType\":\n" + Row + "\n" + Row, label);

        Assert.Equal([label + ":1", label + ":2", label + ":3"], items.Select(item => item.Where), StringComparer.Ordinal);
    }

    [Theory]
    [InlineData("", "AG2003")]
    [InlineData("   \n ", "AG2003")]
    [InlineData("hello", "AG2003")]
    [InlineData("{\"resourceType\":\"Patient\"", "AG2003")]
    [InlineData("{\"resourceType\":\"Patient\"} trailing", "AG2003")]
    [InlineData("[{\"resourceType\":\"Patient\"}]", "AG2008")]
    [InlineData("12", "AG2008")]
    public async Task What_is_no_resource_is_told(string text, string code)
    {
        var item = Assert.Single(await ReadAsync(text, "bad.json"));

        Assert.Null(item.Arrival);
        Assert.Equal(code, item.Problem!.Code.Id);
        Assert.Equal("bad.json", item.Problem.Where);
    }

    [Fact]
    public async Task A_bundle_cut_short_gives_its_whole_entries_and_a_problem()
    {
        var items = await ReadAsync("{\"resourceType\":\"Bundle\",\"entry\":[{\"resource\":" + Patient + "},{\"resource\":{\"resou", "cut.json");

        Assert.Equal("p1", items[0].Arrival!.Id);
        Assert.Equal("AG2003", items[1].Problem!.Code.Id);
        Assert.Equal(2, items.Count);
    }

    [Fact]
    public async Task An_entry_past_five_megabytes_is_passed_over_and_the_next_is_read()
    {
        var large = "{\"resource\":{\"resourceType\":\"Basic\",\"x\":[" + string.Join(",", Enumerable.Repeat("\"" + new string('a', 1000) + "\"", 6000)) + "]}}";
        var items = await ReadAsync("{\"resourceType\":\"Bundle\",\"entry\":[" + large + ",{\"resource\":" + Patient + "}]}", "l.json", 50_000);

        Assert.Equal("AG2007", items[0].Problem!.Code.Id);
        Assert.Equal("l.json#entry 2", items[1].Where);
        Assert.Equal("p1", items[1].Arrival!.Id);
    }

    // The damaged name may be that of the entries: they must not be passed over in silence.
    [Theory]
    [InlineData("\u00e5ntry")]
    [InlineData("\\ud800entry")]
    public async Task A_bundle_with_a_damaged_name_is_told(string name)
    {
        var bundle = "{\"resourceType\":\"Bundle\",\"type\":\"collection\",\"" + name + "\":[{\"resource\":" + Patient + "}]}";
        var item = Assert.Single(await ReadAsync(Encoding.Latin1.GetBytes(bundle), "d.json", 100_000));

        Assert.Null(item.Arrival);
        Assert.Equal("AG2003", item.Problem!.Code.Id);
    }

    private static Task<IReadOnlyList<DocumentItem>> ReadAsync(string text, string label, int chunk = 100_000) => ReadAsync(Encoding.UTF8.GetBytes(text), label, chunk);

    private static async Task<IReadOnlyList<DocumentItem>> ReadAsync(byte[] bytes, string label, int chunk)
    {
        await using var stream = new Trickle(bytes, chunk);
        var items = new List<DocumentItem>();
        await foreach (var item in FhirDocuments.ReadAsync(stream, label, TestContext.Current.CancellationToken))
        {
            items.Add(item);
        }

        return items;
    }

    private sealed class Trickle(byte[] bytes, int chunk) : MemoryStream(bytes)
    {
        public override ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default) =>
            base.ReadAsync(buffer[..Math.Min(chunk, buffer.Length)], cancellationToken);
    }
}
