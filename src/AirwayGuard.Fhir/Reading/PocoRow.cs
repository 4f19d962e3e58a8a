using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>Fills a row from the SDK's parse. Values are taken as they stand in the JSON, since typed getters throw on bad ones.</summary>
internal static class PocoRow
{
    public static void Fill(Observation observation, ObservationRow row)
    {
        row.Begin();
        row.Id = row.Add(Raw.Text(observation.IdElement));
        row.Status = row.Add(Raw.Text(observation.StatusElement));
        row.HasModifier = observation.ModifierExtension.Count > 0;
        row.IsTestData = Raw.IsTestData(observation);
        row.Subject = Reference(row, observation.Subject);
        row.Encounter = Reference(row, observation.Encounter);
        row.Device = Reference(row, observation.Device);
        foreach (var identifier in observation.Identifier)
        {
            if (row.IdentifierValue.IsEmpty)
            {
                (row.IdentifierSystem, row.IdentifierValue) = (row.Add(Raw.Text(identifier.SystemElement)), row.Add(Raw.Text(identifier.ValueElement)));
            }
        }

        References(row, observation.PartOf, row.PartOf);
        References(row, observation.HasMember, row.HasMember);
        References(row, observation.Focus, row.Focus);
        References(row, observation.BasedOn, row.BasedOn);
        FillEffective(observation.Effective, row);

        ushort ordinal = 0;
        foreach (var component in observation.Component.Take(ushort.MaxValue))
        {
            var value = new ChartedValue { Ordinal = ++ordinal, Code = Codings(row, component.Code), HasModifier = component.ModifierExtension.Count > 0 };
            FillValue(component.Value, row, ref value);
            FillAbsent(component.DataAbsentReason, row, ref value);
            row.Values.Add(value);
        }

        var own = new ChartedValue { Code = Codings(row, observation.Code) };
        FillValue(observation.Value, row, ref own);
        FillAbsent(observation.DataAbsentReason, row, ref own);
        row.Values.Add(own);
    }

    /// <summary>Any value[x] as the row holds it.</summary>
    public static void FillValue(DataType? charted, ObservationRow row, ref ChartedValue value)
    {
        switch (charted)
        {
            case null:
                break;
            case Quantity quantity:
                value.Kind = ChartedKind.Quantity;
                value.HasNumber = quantity.ValueElement?.JsonValue is decimal or int or long;
                value.Number = Raw.Number(quantity.ValueElement) ?? 0m;
                value.Kind = quantity.ValueElement is not null && !value.HasNumber ? ChartedKind.Damaged : value.Kind;
                value.Comparator = row.Add(Raw.Text(quantity.ComparatorElement));
                value.UnitText = row.Add(Raw.Text(quantity.UnitElement));
                value.UnitSystem = row.Add(Raw.Text(quantity.SystemElement));
                value.UnitCode = row.Add(Raw.Text(quantity.CodeElement));
                break;
            case CodeableConcept concept:
                value.Kind = ChartedKind.Concept;
                value.Answer = Codings(row, concept);
                value.Text = row.Add(Raw.Text(concept.TextElement));
                break;
            case Code or FhirString:
                FillText(ChartedKind.String, (PrimitiveType)charted, row, ref value);
                break;
            case FhirDateTime moment:
                FillText(ChartedKind.DateTime, moment, row, ref value);
                break;
            case FhirBoolean mark:
                value.Kind = mark.JsonValue is bool ? ChartedKind.Boolean : ChartedKind.Damaged;
                value.IsTrue = mark.JsonValue is true;
                break;
            case Integer count:
                value.HasNumber = count.JsonValue is int;
                value.Kind = value.HasNumber ? ChartedKind.Integer : ChartedKind.Damaged;
                value.Number = count.JsonValue is int number ? number : 0m;
                break;
            default:
                value.Kind = ChartedKind.Other;
                break;
        }
    }

    public static Stretch Codings(ObservationRow row, CodeableConcept? concept)
    {
        var first = row.Codings.Count;
        foreach (var coding in concept?.Coding ?? [])
        {
            row.Codings.Add(new ChartedCoding(
                row.Add(Raw.Text(coding.SystemElement)), row.Add(Raw.Text(coding.CodeElement)), row.Add(Raw.Text(coding.DisplayElement))));
        }

        return new Stretch(first, row.Codings.Count - first);
    }

    private static void FillText(ChartedKind kind, PrimitiveType text, ObservationRow row, ref ChartedValue value)
    {
        value.Kind = text.JsonValue is string ? kind : ChartedKind.Damaged;
        value.Text = row.Add(Raw.Text(text));
    }

    private static void FillAbsent(CodeableConcept? reason, ObservationRow row, ref ChartedValue value)
    {
        value.IsAbsent = reason is not null;
        value.IsNotPerformed = reason?.Coding.Exists(coding => Raw.Text(coding.CodeElement) == "not-performed") == true;
        Codings(row, reason);
    }

    private static void FillEffective(DataType? effective, ObservationRow row)
    {
        switch (effective)
        {
            case null:
                break;
            case FhirDateTime or Instant:
                row.Effective = EffectiveForm.Instant;
                row.From = row.Add(Raw.Text((PrimitiveType)effective));
                break;
            case Period period:
                row.Effective = EffectiveForm.Period;
                row.From = row.Add(Raw.Text(period.StartElement));
                row.To = row.Add(Raw.Text(period.EndElement));
                break;
            default:
                row.Effective = EffectiveForm.Other;
                break;
        }
    }

    private static Slice Reference(ObservationRow row, ResourceReference? reference) => row.Add(Raw.Text(reference?.ReferenceElement));

    private static void References(ObservationRow row, List<ResourceReference> references, List<Slice> into)
    {
        foreach (var reference in references)
        {
            into.Add(Reference(row, reference));
        }
    }
}
