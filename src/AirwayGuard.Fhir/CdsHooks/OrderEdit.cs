using System.Globalization;
using System.Text;
using System.Text.Json;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>
/// Makes of a drafted order another in which one element is changed. All other bytes stay as they were sent: numbers as written, members in
/// their order. Null where the element is not there, is of another kind, or is such that the change would not say what is meant: a number
/// that is a lower bound, a value under a modifier extension, a member given twice.
/// </summary>
/// <remarks>A narrative and notes stay too, and may still tell the old value: whoever suggests the change has to look.</remarks>
public static class OrderEdit
{
    /// <summary>A DeviceRequest with another number in <c>parameter[i].valueQuantity.value</c>; unit and comparator stay.</summary>
    /// <param name="order">UTF-8 JSON.</param>
    /// <param name="parameter">From 0.</param>
    /// <param name="value">Written with as many decimals as it has.</param>
    public static ReadOnlyMemory<byte>? SetQuantity(ReadOnlyMemory<byte> order, int parameter, decimal value) =>
        OrderElement.Find(order, "DeviceRequest", "parameter", parameter) is { } element && element.Quantity() is { } number
            ? Spliced(order, number, Number(value)) : null;

    /// <summary>A DeviceRequest with another number in <c>parameter[i].valueRange.high.value</c>. Null also where the lower end would be above it.</summary>
    /// <param name="order">UTF-8 JSON.</param>
    /// <param name="parameter">From 0.</param>
    public static ReadOnlyMemory<byte>? SetRangeHigh(ReadOnlyMemory<byte> order, int parameter, decimal value) =>
        OrderElement.Find(order, "DeviceRequest", "parameter", parameter) is { } element && element.RangeHigh(value) is { } number
            ? Spliced(order, number, Number(value)) : null;

    /// <summary>A DeviceRequest with another number where parameter[i] has it: of a quantity its value, else the upper end of a range.</summary>
    /// <inheritdoc cref="SetRangeHigh"/>
    public static ReadOnlyMemory<byte>? SetNumber(ReadOnlyMemory<byte> body, int parameter, decimal value) =>
        SetQuantity(body, parameter, value) ?? SetRangeHigh(body, parameter, value);

    /// <summary>A DeviceRequest with another truth in <c>parameter[i].valueBoolean</c>.</summary>
    /// <param name="order">UTF-8 JSON.</param>
    /// <param name="parameter">From 0.</param>
    public static ReadOnlyMemory<byte>? SetBoolean(ReadOnlyMemory<byte> order, int parameter, bool value) =>
        OrderElement.Find(order, "DeviceRequest", "parameter", parameter) is { } element && element.Boolean() is { } truth
            ? Spliced(order, truth, value ? "true"u8 : "false"u8) : null;

    /// <summary>
    /// A DeviceRequest with another code and display in the only coding of <c>parameter[i].valueCodeableConcept</c>; the text goes, which meant
    /// the old one. Null also where there are several codings or the one is of another system: what the order entry calls the new answer
    /// in a code system of its own is not known here.
    /// </summary>
    /// <param name="order">UTF-8 JSON.</param>
    /// <param name="parameter">From 0.</param>
    /// <param name="coding">Of the system that the coding has; its display may be empty.</param>
    public static ReadOnlyMemory<byte>? SetCoding(ReadOnlyMemory<byte> order, int parameter, CardCoding coding)
    {
        ArgumentNullException.ThrowIfNull(coding);
        Need.Text(coding.System, nameof(coding));
        Need.Text(coding.Code, nameof(coding));
        return OrderElement.Find(order, "DeviceRequest", "parameter", parameter) is { } element && element.Concept() is { } concept
            && OrderCoding.Changed(order[concept], coding) is { } changed ? Spliced(order, concept, changed) : null;
    }

    private static byte[] Number(decimal value) => Encoding.UTF8.GetBytes(value.ToString(CultureInfo.InvariantCulture));

    // Nullable, though it never is null: beside a plain ReadOnlyMemory the compiler takes null for an empty one.
    private static ReadOnlyMemory<byte>? Spliced(ReadOnlyMemory<byte> order, Range old, ReadOnlySpan<byte> put)
    {
        var (start, length) = old.GetOffsetAndLength(order.Length);
        return (byte[])[.. order.Span[..start], .. put, .. order.Span[(start + length)..]];
    }
}
