namespace AirwayGuard.Core.Ports;

/// <summary>Fetches, when a finding is born, the words of a source that facts do not carry.</summary>
public interface IChartedText
{
    /// <summary>The value as charted (<c>220 mmHg</c>, <c>14 Fr</c>) of the given ordinal of a resource's body; null where it has none.</summary>
    string? ValueOf(ReadOnlySpan<byte> body, int ordinal);

    /// <summary>Of a value taken from an order's text: the element, the characters, and the text; null of any other.</summary>
    string? PlaceOf(ReadOnlySpan<byte> body, int ordinal) => null;
}
