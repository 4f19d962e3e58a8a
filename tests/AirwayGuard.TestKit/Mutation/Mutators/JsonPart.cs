namespace AirwayGuard.TestKit.Mutation.Mutators;

/// <summary>One value of a JSON text, by its bytes.</summary>
/// <param name="From">Where it begins; with its name, where it is a member.</param>
/// <param name="Value">Where the value begins.</param>
/// <param name="To">Behind its last byte.</param>
/// <param name="Parent">Index of the object or list it stands in; -1 for the whole.</param>
internal readonly record struct JsonPart(int From, int Value, int To, int Parent)
{
    public bool IsMember => From < Value;
}
