namespace AirwayGuard.TestKit.Mutation.Mutators;

/// <summary>JSON to change, with its parts found once.</summary>
internal sealed record JsonInput(byte[] Bytes, List<JsonPart> Parts)
{
    public static JsonInput Of(byte[] bytes)
    {
        var marked = JsonParts.Marked(bytes);
        return new JsonInput(marked, JsonParts.Of(marked));
    }
}
