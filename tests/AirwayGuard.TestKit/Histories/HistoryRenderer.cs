using System.Globalization;
using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Histories;

/// <summary>Writes a history as FHIR R4 resources, with the codes of <c>airway-care</c> as they stand.</summary>
public static class HistoryRenderer
{
    private const string Base = "https://airwayguard.example.org/fhir/CodeSystem/";
    private const string Ucum = "http://unitsofmeasure.org";
    private const string Snomed = "http://snomed.info/sct";

    /// <summary>One JSON text per resource; a row charted in several versions appears once for each, in the history's order.</summary>
    public static IReadOnlyList<string> Render(History history)
    {
        var patient = new JsonObject { ["resourceType"] = "Patient", ["id"] = history.Patient };
        if (history.BirthDate is not null)
        {
            patient["birthDate"] = history.BirthDate;
        }

        return
        [
            patient.ToJsonString(),
            .. history.Places.Select(p => new JsonObject { ["resourceType"] = "Location", ["id"] = p, ["status"] = "active" }.ToJsonString()),
            .. history.Stays.Select(s => Stay(history, s).ToJsonString()),
            .. history.Things.Select(t => Thing(t).ToJsonString()),
            .. history.Metrics.Select(m => Metric(m).ToJsonString()),
            .. history.Uses.Select(u => Use(history, u).ToJsonString()),
            .. history.Acts.Select(a => Act(history, a).ToJsonString()),
            .. history.Rows.Select(r => Row(history, r).ToJsonString()),
            .. history.Orders.SelectMany(o => Order(history, o)).Select(o => o.ToJsonString()),
        ];
    }

    private static JsonObject Stay(History history, Stay stay) => new()
    {
        ["resourceType"] = "Encounter",
        ["id"] = stay.Id,
        ["status"] = stay.End is null ? "in-progress" : "finished",
        ["class"] = new JsonObject { ["system"] = "http://terminology.hl7.org/CodeSystem/v3-ActCode", ["code"] = stay.Class },
        ["subject"] = Patient(history),
        ["period"] = Period(stay.Start, stay.End),
    };

    private static JsonObject Thing(Thing thing)
    {
        var properties = new JsonArray();
        if (thing.InnerDiameter is { } diameter)
        {
            var concept = thing.Kind == "inner-cannula" ? "inner-cannula-diameter" : "tube-inner-diameter";
            properties.Add(new JsonObject { ["type"] = Care(concept), ["valueQuantity"] = new JsonArray(Quantity(new(diameter, "mm"))) });
        }

        if (thing.French is { } french)
        {
            properties.Add(new JsonObject { ["type"] = Care("catheter-size"), ["valueQuantity"] = new JsonArray(Quantity(new(french, "[Ch]"))) });
        }

        if (thing.Use is { } use)
        {
            properties.Add(new JsonObject { ["type"] = Care("suction-use"), ["valueCode"] = new JsonArray(Answer(use)) });
        }

        var device = new JsonObject { ["resourceType"] = "Device", ["id"] = thing.Id, ["status"] = "active", ["type"] = Coded("device-kind", thing.Kind) };
        if (properties.Count > 0)
        {
            device["property"] = properties;
        }

        return device;
    }

    private static JsonObject Metric(Metric metric)
    {
        var resource = new JsonObject
        {
            ["resourceType"] = "DeviceMetric",
            ["id"] = metric.Id,
            ["type"] = Care(metric.Category == "setting" ? "vacuum-set" : "vacuum-pressure"),
            ["source"] = Reference("Device/" + metric.Thing),
            ["category"] = metric.Category,
        };
        SetIf(resource, "calibration", metric.Calibrated is { } time ? new JsonArray(new JsonObject { ["state"] = "calibrated", ["time"] = Time(time) }) : null);
        return resource;
    }

    private static JsonObject Use(History history, ThingUse use) => new()
    {
        ["resourceType"] = "DeviceUseStatement",
        ["id"] = use.Id,
        ["status"] = use.End is null ? "active" : "completed",
        ["subject"] = Patient(history),
        ["timingPeriod"] = Period(use.Start, use.End),
        ["device"] = Reference("Device/" + use.Thing),
    };

    private static JsonObject Act(History history, SuctionAct act)
    {
        var procedure = new JsonObject
        {
            ["resourceType"] = "Procedure",
            ["id"] = act.Id,
            ["status"] = act.Status,
            ["code"] = SuctionCode(),
            ["subject"] = Patient(history),
        };
        SetIf(procedure, "encounter", act.Stay is null ? null : Reference("Encounter/" + act.Stay));
        SetIf(procedure, "basedOn", act.Order is null ? null : new JsonArray(Reference("ServiceRequest/" + act.Order)));
        SetIf(procedure, "partOf", act.Parent is null ? null : new JsonArray(Reference("Procedure/" + act.Parent)));
        if (act.End is null)
        {
            procedure["performedDateTime"] = Time(act.Start);
        }
        else
        {
            procedure["performedPeriod"] = Period(act.Start, act.End);
        }

        SetIf(procedure, "usedReference", act.Used.IsEmpty ? null : new JsonArray([.. act.Used.Select(u => Reference("Device/" + u))]));
        return procedure;
    }

    private static JsonObject Row(History history, ChartRow row)
    {
        var observation = new JsonObject
        {
            ["resourceType"] = "Observation",
            ["id"] = row.Id,
            ["meta"] = new JsonObject { ["lastUpdated"] = Time(row.Saved) },
            ["status"] = row.Status,
            ["code"] = Care(row.Concept),
            ["subject"] = row.About is { } about ? Reference(about) : Patient(history),
        };
        // The source's grouping key is the shared prefix of identifier.value.
        SetIf(observation, "identifier", row.Key is null ? null : new JsonArray(new JsonObject { ["system"] = "urn:oid:2.16.840.1.113883.3.9999.1.7", ["value"] = $"row/{row.Key}/{row.Id}" }));
        SetIf(observation, "encounter", row.Stay is null ? null : Reference("Encounter/" + row.Stay));
        SetIf(observation, "partOf", row.PartOf is null ? null : new JsonArray(Reference("Procedure/" + row.PartOf)));
        SetIf(observation, "device", row.Device is null ? null : Reference(row.Device));
        if (row.End is null)
        {
            observation["effectiveDateTime"] = Time(row.At);
        }
        else
        {
            observation["effectivePeriod"] = Period(row.At, row.End);
        }

        SetValue(observation, row.Value);
        if (!row.Components.IsEmpty)
        {
            observation["component"] = new JsonArray([.. row.Components.Select(c => SetValue(new JsonObject { ["code"] = Care(c.Concept) }, c.Value))]);
        }

        return observation;
    }

    private static IEnumerable<JsonObject> Order(History history, SuctionOrder order)
    {
        var request = new JsonObject
        {
            ["resourceType"] = "ServiceRequest",
            ["id"] = order.Id,
            ["status"] = order.Status,
            ["intent"] = order.Intent,
            ["code"] = SuctionCode(),
            ["subject"] = Patient(history),
            ["authoredOn"] = Time(order.Authored),
        };
        SetIf(request, "encounter", order.Stay is null ? null : Reference("Encounter/" + order.Stay));
        SetIf(request, "doNotPerform", order.DoNotPerform ? JsonValue.Create(true) : null);
        SetIf(request, "asNeededBoolean", order.AsNeeded is { } asNeeded ? JsonValue.Create(asNeeded) : null);
        if (order.Frequency is { } frequency)
        {
            request["occurrenceTiming"] = new JsonObject
            {
                ["repeat"] = new JsonObject { ["frequency"] = frequency, ["period"] = order.Period, ["periodUnit"] = order.PeriodUnit },
            };
        }

        yield return request;
        var parameters = Parameters(order);

        if (parameters.Count > 0)
        {
            yield return new JsonObject
            {
                ["resourceType"] = "DeviceRequest",
                ["id"] = "equipment-" + order.Id,
                ["basedOn"] = new JsonArray(Reference(order.Reference)),
                ["status"] = order.Status,
                ["intent"] = order.Intent,
                ["codeCodeableConcept"] = Coded("device-kind", "suction-catheter"),
                ["parameter"] = parameters,
                ["subject"] = Patient(history),
                ["authoredOn"] = Time(order.Authored),
            };
        }
    }

    private static JsonArray Parameters(SuctionOrder order)
    {
        var parameters = new JsonArray();
        if (order.Vacuum is { } vacuum)
        {
            JsonObject value = order.VacuumLow is { } low && low < vacuum.Amount
                ? new() { ["valueRange"] = new JsonObject { ["low"] = Quantity(vacuum with { Amount = low }), ["high"] = Quantity(vacuum) } }
                : new() { ["valueQuantity"] = Quantity(vacuum) };
            value["code"] = Care("vacuum-set");
            parameters.Add(value);
        }

        var others = new (string Concept, Charted? Value)[]
        {
            ("catheter-size", order.Catheter), ("regulator-mode", AsAnswer(order.Mode)), ("suction-system", AsAnswer(order.System)),
            (order.Depth is Charted.Number ? "insertion-depth" : "depth-technique", order.Depth), ("saline-instilled", order.Saline),
            ("preoxygenation", order.Preoxygenation), ("allowance-reason", AsAnswer(order.Reason)),
        };
        foreach (var (concept, value) in others.Where(o => o.Value is not null))
        {
            parameters.Add(SetValue(new JsonObject { ["code"] = Care(concept) }, value!));
        }

        return parameters;
    }

    private static Charted.Answer? AsAnswer(string? code) => code is null ? null : new(code);

    private static JsonObject SetValue(JsonObject target, Charted value)
    {
        switch (value)
        {
            case Charted.Number { Form: NumberForm.Text } n:
                target["valueString"] = ReferenceNumber.TextOf(n);
                break;
            case Charted.Number n:
                target["valueQuantity"] = Quantity(n);
                break;
            case Charted.Words w:
                target["valueString"] = w.Text;
                break;
            case Charted.Answer { Form: AnswerForm.Text } a:
                target["valueString"] = a.Code;
                break;
            case Charted.Answer { Form: AnswerForm.ConceptText } a:
                target["valueCodeableConcept"] = new JsonObject { ["text"] = a.Code };
                break;
            case Charted.Answer a:
                target["valueCodeableConcept"] = Answer(a.Code);
                break;
            case Charted.YesNo y:
                target["valueBoolean"] = y.Value;
                break;
            case Charted.Moment m:
                target["valueDateTime"] = Time(m.Time);
                break;
            case Charted.NotPerformed:
                target["dataAbsentReason"] = Coding("http://terminology.hl7.org/CodeSystem/data-absent-reason", "not-performed");
                break;
            default:
                break;
        }

        return target;
    }

    private static JsonObject Quantity(Charted.Number number)
    {
        var quantity = new JsonObject { ["value"] = number.Amount };
        SetIf(quantity, "comparator", number.Comparator);
        SetIf(quantity, "unit", number.Unit);
        if (number is { Form: NumberForm.Ucum, Unit: not null })
        {
            (quantity["system"], quantity["code"]) = (Ucum, number.Unit);
        }

        return quantity;
    }

    private static JsonObject SuctionCode() => Coding(Snomed, "230040009");

    private static JsonObject Care(string concept) => Coded("airway-care", concept);

    private static JsonObject Answer(string code) => Coded("airway-care-answer", code);

    private static JsonObject Coded(string system, string code) => Coding(Base + system, code);

    private static JsonObject Coding(string system, string code) =>
        new() { ["coding"] = new JsonArray(new JsonObject { ["system"] = system, ["code"] = code }) };

    private static JsonObject Patient(History history) => Reference("Patient/" + history.Patient);

    private static JsonObject Reference(string reference) => new() { ["reference"] = reference };

    private static JsonObject Period(DateTimeOffset start, DateTimeOffset? end)
    {
        var period = new JsonObject { ["start"] = Time(start) };
        SetIf(period, "end", end is { } e ? Time(e) : null);
        return period;
    }

    private static void SetIf(JsonObject target, string name, JsonNode? value)
    {
        if (value is not null)
        {
            target[name] = value;
        }
    }

    private static string Time(DateTimeOffset time) => time.ToString("yyyy-MM-dd'T'HH:mm:ss.FFFzzz", CultureInfo.InvariantCulture);
}
