using System.Text;
using System.Text.Json;
using AirwayGuard.TestKit.Mutation.Mutators;

namespace AirwayGuard.TestKit.Mutation;

/// <summary>The real inputs that are changed: the samples, taken apart, and a few resources of types that they lack. Shared between threads.</summary>
public sealed class MutationInputs
{
    private MutationInputs()
    {
    }

    internal JsonInput[] Rows { get; private init; } = [];

    internal JsonInput[] Resources { get; private init; } = [];

    internal JsonInput[] Documents { get; private init; } = [];

    /// <summary>A few resources of one scenario each, to be judged.</summary>
    internal JsonInput[] Stays { get; private init; } = [];

    internal JsonInput[] Notices { get; private init; } = [];

    internal JsonInput[] Answers { get; private init; } = [];

    internal JsonInput[] Written { get; private init; } = [];

    internal JsonInput[] Hooks { get; private init; } = [];

    internal JsonInput[] Feedback { get; private init; } = [];

    /// <param name="samples">The folder <c>fhir-samples</c>.</param>
    /// <exception cref="DirectoryNotFoundException">It is not there.</exception>
    public static MutationInputs Load(string samples)
    {
        var files = Directory.GetDirectories(samples).Order(StringComparer.Ordinal)
            .SelectMany(folder => Directory.GetFiles(folder).Where(file => Path.GetFileNameWithoutExtension(file) is "input" or "rows").Order(StringComparer.Ordinal))
            .Select(File.ReadAllBytes).ToArray();
        var stays = files.Select(file => ResourcesOf(file).ToArray()).Where(stay => stay.Length > 0).ToArray();
        var resources = stays.SelectMany(stay => stay).Concat(OtherInputs.Resources.Select(Encoding.UTF8.GetBytes)).ToArray();
        return new MutationInputs
        {
            Rows = Inputs(resources.Where(IsRow)),
            Resources = Inputs(resources.Where(one => !IsRow(one))),
            Documents = Inputs(files.Select(Small).Concat(OtherInputs.Documents.Select(Encoding.UTF8.GetBytes))),
            Stays = Inputs(stays.Select(stay => Lines(stay.Take(12)))),
            Notices = Inputs(OtherInputs.Notices.Select(Encoding.UTF8.GetBytes)),
            Answers = Inputs(OtherInputs.Answers.Select(Encoding.UTF8.GetBytes).Concat(stays.Where((_, index) => index % 8 == 0).Select(stay => Searchset(stay.Take(3))))),
            Written = Inputs(OtherInputs.Written.Select(Encoding.UTF8.GetBytes)),
            Hooks = Inputs(OtherInputs.Hooks.Select(Encoding.UTF8.GetBytes)),
            Feedback = Inputs(OtherInputs.Feedback.Select(Encoding.UTF8.GetBytes)),
        };
    }

    private static JsonInput[] Inputs(IEnumerable<byte[]> inputs) => [.. inputs.Select(JsonInput.Of)];

    private static bool IsRow(byte[] resource) => Encoding.UTF8.GetString(resource.AsSpan(0, Math.Min(80, resource.Length))).Contains("Observation\"", StringComparison.Ordinal);

    private static byte[] Lines(IEnumerable<byte[]> resources) => Encoding.UTF8.GetBytes(string.Join('\n', resources.Select(Encoding.UTF8.GetString)));

    private static byte[] Searchset(IEnumerable<byte[]> resources) => Encoding.UTF8.GetBytes(
        """{"resourceType":"Bundle","type":"searchset","total":3,"meta":{"lastUpdated":"2026-03-02T08:00:01Z"},"link":[{"relation":"self","url":"http://sandbox.test/fhir/Observation?code=a&_lastUpdated=ge2026-03-01"},{"relation":"next","url":"http://sandbox.test/fhir?page=2"}],"entry":["""
        + string.Join(',', resources.Select(one => "{\"resource\":" + Encoding.UTF8.GetString(one) + ",\"search\":{\"mode\":\"match\"}}")) + "]}");

    // A document of the first entries, compact: what is changed should be read, not skipped as white space.
    private static byte[] Small(byte[] file)
    {
        var resources = ResourcesOf(file).Take(4).ToArray();
        return resources.Length == 0 ? file : file[0] == '{' && Array.IndexOf(file, (byte)'\n') > 40
            ? Lines(resources)
            : Encoding.UTF8.GetBytes("{\"resourceType\":\"Bundle\",\"type\":\"collection\",\"entry\":[" + string.Join(',', resources.Select(one => "{\"resource\":" + Encoding.UTF8.GetString(one) + "}")) + "]}");
    }

    private static IEnumerable<byte[]> ResourcesOf(byte[] file)
    {
        IReadOnlyList<string> texts;
        try
        {
            texts = TextsOf(Encoding.UTF8.GetString(file));
        }
        catch (JsonException)
        {
            // A sample that is broken on purpose is taken as a document only.
            yield break;
        }

        foreach (var text in texts)
        {
            yield return Encoding.UTF8.GetBytes(text);
        }
    }

    private static List<string> TextsOf(string file)
    {
        var texts = new List<string>();
        var isLines = file.Split('\n')[0].TrimEnd().EndsWith('}');
        foreach (var text in isLines ? file.Split('\n', StringSplitOptions.RemoveEmptyEntries) : [file])
        {
            using var document = JsonDocument.Parse(text);
            var root = document.RootElement;
            if (root.TryGetProperty("entry", out var entries) && entries.ValueKind == JsonValueKind.Array)
            {
                texts.AddRange(entries.EnumerateArray().Where(entry => entry.TryGetProperty("resource", out _)).Select(entry => JsonSerializer.Serialize(entry.GetProperty("resource"))));
            }
            else
            {
                texts.Add(JsonSerializer.Serialize(root));
            }
        }

        return texts;
    }
}
