using System.Collections;
using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>The parse without the SDK's validation of attributes gives what the SDK's recoverable parse gives.</summary>
public sealed class PocoParseTests
{
    private static readonly string[] Wrong =
    [
        "null", "3", "-1.5e400", "true", "\"\"", "\" \"", "\"x\"", "\"2026-13-45\"", "\"2026\"", "\"Patient/p9\"", "{}", "[]", "[null]", "[{}]", "[[1]]", "[\"x\",3]",
        "{\"value\":\"1\"}", "{\"resourceType\":\"Patient\"}", "{\"extension\":[{\"url\":\"u\",\"valueFoo\":1}]}",
    ];

    private static readonly Func<string, string>[] Renamed = [name => name.ToUpperInvariant(), name => "_" + name, name => name + "X", _ => "valueInteger", _ => "id"];

    [Fact]
    public void Every_resource_of_the_scenarios_is_parsed_alike()
    {
        var all = Scenarios().ToList();

        Assert.True(all.Count > 300, $"{all.Count} resources.");
        Assert.All(all, Alike);
    }

    [Fact]
    public void Every_element_in_a_wrong_form_or_place_is_parsed_alike()
    {
        var (all, refused) = (0, 0);
        foreach (var malformed in Samples.All.SelectMany(Malformed))
        {
            all++;
            refused += Alike(malformed) ? 0 : 1;
        }

        // The comparison means something only where both happen.
        Assert.True(refused > 20 && refused < all - 20, $"{refused} of {all} were refused.");
    }

    [Fact]
    public void Bytes_changed_anyhow_are_parsed_alike() => AnyBytesTests.SampleMutated(bytes => Alike(bytes), iterations: 600);

    private static void Alike(string json) => Alike(Encoding.UTF8.GetBytes(json));

    /// <returns>Whether both read a resource.</returns>
    private static bool Alike(byte[] bytes)
    {
        var expected = PocoParse.Read(bytes, FhirJsonDeserializer.RECOVERABLE, out var isDoubledExpected);
        var actual = PocoParse.Read(bytes, out var isDoubled);
        var same = isDoubled == isDoubledExpected && Tree(expected).SequenceEqual(Tree(actual), StringComparer.Ordinal)
            && Facts(expected, bytes).SequenceEqual(Facts(actual, bytes), StringComparer.Ordinal);
        Assert.True(same, Encoding.UTF8.GetString(bytes));
        return actual is not null;
    }

    private static IReadOnlyList<string> Facts(Resource? resource, byte[] body)
    {
        if (resource is null || !ResourceReaders.IsRead(resource.TypeName))
        {
            return [];
        }

        var names = new EntityTable();
        var into = new Core.Ports.Reading();
        var desk = new Desk(new ObservationRow(), new Scribe(ShippedMaps.WithDemoRows));
        desk.Scribe.Begin(names, into, "input.json", null);
        var arrival = new Arrival(ArrivalKind.Resource, "input.json", null, null, null, DateTimeOffset.UnixEpoch, KnownBy.Import, body);
        PocoParse.Guarded(desk.Scribe, arrival.Body, () => ResourceReaders.Read(resource, arrival, desk));
        return new Read(into, names).Lines;
    }

    /// <summary>Every element that the parse kept, those of a wrong form included, with its type and value.</summary>
    private static List<string> Tree(object? root)
    {
        var lines = new List<string>();
        Walk("", root);
        return lines;

        void Walk(string path, object? node)
        {
            lines.Add($"{path} {node?.GetType().Name} {(node is Base or IEnumerable and not string ? "" : Convert.ToString(node, CultureInfo.InvariantCulture))}");
            if (node is Base element)
            {
                foreach (var (name, value) in element.EnumerateElements())
                {
                    Walk($"{path}.{name}", value);
                }
            }
            else if (node is IEnumerable list and not string)
            {
                var at = 0;
                foreach (var item in list)
                {
                    Walk($"{path}[{at++}]", item);
                }
            }
        }
    }

    private static IEnumerable<byte[]> Malformed(string sample)
    {
        // Some of them at each place, others at the next: every one comes at many places.
        var turn = sample.Length;
        foreach (var place in Places(JsonNode.Parse(sample)!, []))
        {
            turn++;
            foreach (var wrong in Wrong.Where((_, index) => (index + turn) % Wrong.Length == 0))
            {
                var root = JsonNode.Parse(sample)!;
                Put(root, place, wrong);
                yield return Encoding.UTF8.GetBytes(root.ToJsonString());
            }

            if (place[^1] is string name)
            {
                yield return Encoding.UTF8.GetBytes(sample.Replace($"\"{name}\":", $"\"{Renamed[turn % Renamed.Length](name)}\":", StringComparison.Ordinal));
            }
        }
    }

    private static IEnumerable<object[]> Places(JsonNode? node, object[] at) => node switch
    {
        JsonObject members => members.SelectMany(member => Places(member.Value, [.. at, member.Key]).Prepend([.. at, member.Key])),
        JsonArray items => items.SelectMany((item, index) => Places(item, [.. at, index]).Prepend([.. at, index])),
        _ => [],
    };

    private static void Put(JsonNode root, object[] place, string json)
    {
        foreach (var step in place[..^1])
        {
            root = (step is string name ? root[name] : root[(int)step])!;
        }

        var value = JsonNode.Parse(json);
        if (place[^1] is string last)
        {
            root[last] = value;
        }
        else
        {
            root[(int)place[^1]] = value;
        }
    }

    // A file's documents: one resource, one to a line, or a Bundle's entries.
    private static IEnumerable<string> Scenarios()
    {
        foreach (var file in Directory.EnumerateFiles(Folder(), "*.*json", SearchOption.AllDirectories).Order(StringComparer.Ordinal))
        {
            var text = File.ReadAllText(file);
            foreach (var document in file.EndsWith(".ndjson", StringComparison.Ordinal) ? text.Split('\n', StringSplitOptions.RemoveEmptyEntries) : [text])
            {
                if (!TryParse(document, out var root) || root["resourceType"] is null)
                {
                    continue;
                }

                var entries = root["entry"] as JsonArray ?? [];
                foreach (var resource in entries.Count == 0 ? [root] : entries.Select(entry => entry!["resource"]).OfType<JsonNode>())
                {
                    yield return resource.ToJsonString();
                }
            }
        }
    }

    private static bool TryParse(string document, out JsonObject root)
    {
        try
        {
            root = JsonNode.Parse(document) as JsonObject ?? [];
            return true;
        }
        catch (JsonException)
        {
            // A scenario of what cannot be read: no parse of ours begins on what is no JSON.
            root = [];
            return false;
        }
    }

    private static string Folder()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "AirwayGuard.sln")))
        {
            folder = folder.Parent ?? throw new DirectoryNotFoundException("No folder above the tests holds AirwayGuard.sln.");
        }

        return Path.Combine(folder.FullName, "fhir-samples");
    }
}
