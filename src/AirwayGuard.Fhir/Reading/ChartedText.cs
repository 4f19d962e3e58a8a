using System.Globalization;
using System.Text;
using AirwayGuard.Core.Orders;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Terminology;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>The words in which a value was charted, for a person who looks at a finding. Safe for concurrent use.</summary>
/// <param name="map">What the site's codes mean, so that the parts of an order that were not read can be named; without one they are not.</param>
public sealed class ChartedText(CodeMap? map = null) : IChartedText
{
    private readonly OrderWordsReader? _orders = map is null ? null : new OrderWordsReader(map);

    private const int Longest = 200;

    /// <inheritdoc />
    public string? PlaceOf(ReadOnlySpan<byte> body, int ordinal) => ordinal >= TextOrdinal.First ? TextsOf(body)?.PlaceOf(ordinal) : null;

    /// <inheritdoc />
    public string? ValueOf(ReadOnlySpan<byte> body, int ordinal)
    {
        if (ordinal >= TextOrdinal.First)
        {
            return Cut(TextsOf(body)?.WordsOf(ordinal));
        }

        if (ordinal == UnreadOrderParts.Ordinal)
        {
            return UnreadOf(body);
        }

        var bytes = JsonCheck.WithoutMark(body.ToArray());
        if (JsonCheck.Trouble(bytes.Span, out var type) is not null)
        {
            return null;
        }

        var row = new ObservationRow();
        if (type == "Observation" && RowReader.TryFill(bytes, row))
        {
            return InWords(row, ordinal);
        }

        try
        {
            return PocoParse.Read(bytes, out _) is { } resource && TryFill(resource, ordinal, row) ? InWords(row, ordinal) : null;
        }
        catch (Exception refused) when (PocoParse.IsOfAWrongForm(refused, bytes))
        {
            // An element has a form that its type does not have: there are no words to give.
            return null;
        }
    }

    // All that was not read of it, the texts too: whoever looks at the order looks at the whole.
    private string? UnreadOf(ReadOnlySpan<byte> body)
    {
        var bytes = JsonCheck.WithoutMark(body.ToArray());
        return _orders is null || JsonCheck.Trouble(bytes.Span, out var type) is not null || type is not ("ServiceRequest" or "DeviceRequest")
            ? null
            : Cut(string.Join(" | ", _orders.Read(new Arrival(ArrivalKind.Resource, "", type, "order", null, DateTimeOffset.UnixEpoch, KnownBy.Import, bytes)).SelectMany(order => order.Unread)));
    }

    private static bool TryFill(Resource resource, int ordinal, ObservationRow row)
    {
        if (resource is Observation observation)
        {
            PocoRow.Fill(observation, row);
            return true;
        }

        DataType? charted = resource switch
        {
            Patient patient when ordinal == 0 && Raw.Text(patient.BirthDateElement) is { } date => new FhirString(date),
            Device device => Part(device.Property, ordinal) is { } property ? Charted(property) : null,
            DeviceRequest order => Part(order.Parameter, ordinal)?.Value,
            _ => null,
        };
        row.Begin();
        if (charted is Hl7.Fhir.Model.Range range)
        {
            var (low, high) = (Words(range.Low), Words(range.High));
            charted = new FhirString(low is null ? high : high is null ? low : $"{low} to {high}");
        }

        var value = new ChartedValue { Ordinal = (ushort)AnswerCodings.PartOf(ordinal, 1) };
        PocoRow.FillValue(charted, row, ref value);
        row.Values.Add(value);
        return charted is not null;
    }

    private static T? Part<T>(List<T> parts, int ordinal)
        where T : class => parts.ElementAtOrDefault(AnswerCodings.PartOf(ordinal, parts.Count) - 1);

    private static DataType? Charted(Device.PropertyComponent property) =>
        property.ValueQuantity.Count > 0 ? property.ValueQuantity[0] : property.ValueCode.FirstOrDefault();

    private static string? Words(Quantity? quantity)
    {
        var row = new ObservationRow();
        var value = new ChartedValue();
        PocoRow.FillValue(quantity, row, ref value);
        row.Values.Add(value);
        return InWords(row, 0);
    }

    private static string? InWords(ObservationRow row, int ordinal)
    {
        var part = AnswerCodings.PartOf(ordinal, row.Values.Count);
        var index = row.Values.FindIndex(value => value.Ordinal == part);
        if (index < 0)
        {
            return null;
        }

        var value = row.Values[index];
        var words = value.Kind switch
        {
            ChartedKind.Quantity when value.HasNumber => InWords(row, value),
            ChartedKind.Integer => value.Number.ToString(CultureInfo.InvariantCulture),
            ChartedKind.String or ChartedKind.DateTime => row.Text(value.Text),
            ChartedKind.Boolean => value.IsTrue ? "yes" : "no",
            ChartedKind.Concept => OfAnswer(row, value),
            ChartedKind.None when value.IsNotPerformed => "not performed",
            _ => null,
        };
        return Cut(words);
    }

    private static string? Cut(string? words)
    {
        words = words?.Trim();
        return string.IsNullOrEmpty(words) ? null : words.Length <= Longest ? words : words[..Longest] + "…";
    }

    private static OrderTexts? TextsOf(ReadOnlySpan<byte> body)
    {
        var bytes = JsonCheck.WithoutMark(body.ToArray());
        try
        {
            return JsonCheck.Trouble(bytes.Span, out _) is not null ? null : PocoParse.Read(bytes, out _) switch
            {
                ServiceRequest order => OrderTexts.Of(order),
                DeviceRequest order => OrderTexts.Of(order),
                _ => null,
            };
        }
        catch (Exception refused) when (PocoParse.IsOfAWrongForm(refused, bytes))
        {
            // An element has a form that its type does not have: there are no words to give.
            return null;
        }
    }

    private static string InWords(ObservationRow row, in ChartedValue value)
    {
        var unit = row.Text(value.UnitText.IsEmpty ? value.UnitCode : value.UnitText);
        // UCUM's unit of a bare ratio is written 1: behind a number it reads as a second number.
        unit = unit == "1" ? "" : unit;
        if (!value.UnitText.IsEmpty && Units.Differ(Units.FromText(unit), Units.FromText(row.Text(value.UnitCode))))
        {
            unit += $" (coded {row.Text(value.UnitCode)})";
        }

        return new StringBuilder(row.Text(value.Comparator))
            .Append(CultureInfo.InvariantCulture, $"{value.Number} {unit}")
            .ToString();
    }

    private static string OfAnswer(ObservationRow row, in ChartedValue value)
    {
        if (!value.Text.IsEmpty)
        {
            return row.Text(value.Text);
        }

        // Codings may stand for several answers, and their order says nothing.
        var words = new List<string>();
        foreach (var coding in row.In(value.Answer))
        {
            words.Add(row.Text(coding.Display.IsEmpty ? coding.Code : coding.Display));
        }

        return string.Join(" / ", words.Where(word => word.Length > 0).Distinct(StringComparer.OrdinalIgnoreCase).Order(StringComparer.OrdinalIgnoreCase));
    }
}
