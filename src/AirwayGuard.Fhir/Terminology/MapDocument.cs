using System.Text.Json;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Fhir.Terminology;

/// <summary>A FHIR R4 ConceptMap or NamingSystem, read and checked. Everything wrong is told with the place in the document.</summary>
internal sealed class MapDocument
{
    private static readonly string[] Equivalences =
        ["relatedto", "equivalent", "equal", "wider", "subsumes", "narrower", "specializes", "inexact", "unmatched", "disjoint"];

    private const int LongestCode = 300;

    private readonly HashSet<(string System, string Code, MapTarget Target)> _seen = [];
    private readonly string _name;
    private readonly List<Problem> _faults;

    private MapDocument(string name, List<Problem> faults)
    {
        _name = name;
        _faults = faults;
    }

    public List<MapEntry> Entries { get; } = [];

    /// <summary>Other spelling of a system → the one meant, from a NamingSystem.</summary>
    public Dictionary<string, string> Systems { get; } = new(StringComparer.Ordinal);

    public static MapDocument Read(MapSource source, List<Problem> faults)
    {
        var document = new MapDocument(source.Name, faults);
        try
        {
            using var json = JsonDocument.Parse(source.Json);
            document.ReadRoot(json.RootElement);
        }
        catch (JsonException)
        {
            faults.Add(new Problem(Codes.MapNotJson, source.Name, "The file is not well-formed JSON."));
        }

        return document;
    }

    private void ReadRoot(JsonElement root)
    {
        var type = Text(root, "resourceType");
        if (type is "ConceptMap" or "NamingSystem" && Text(root, "status") is not ("" or "draft" or "active" or "unknown") and var status)
        {
            Fault(Codes.MapStatus, "status", status == "retired" ? "The map is retired." : "The map's status is none of R4: draft, active, retired, unknown.");
            return;
        }

        switch (type)
        {
            case "ConceptMap":
                ReadGroups(root);
                break;
            case "NamingSystem":
                ReadNames(root);
                break;
            default:
                Fault(Codes.MapNotJson, "", "The file holds neither a ConceptMap nor a NamingSystem.");
                break;
        }
    }

    private void ReadNames(JsonElement root)
    {
        var ids = Items(root, "uniqueId").Select(id => (Type: Text(id, "type"), Value: Text(id, "value"))).Where(id => id.Value.Length > 0).ToList();
        var meant = ids.Find(id => id.Type == "uri").Value;
        if (meant is null)
        {
            Fault(Codes.MapSourceMissing, "uniqueId", "The NamingSystem gives no uri.");
            return;
        }

        foreach (var id in ids.Where(id => id.Value != meant))
        {
            Systems[CodeSystems.Canonical(id.Value)] = meant;
        }
    }

    private void ReadGroups(JsonElement root)
    {
        var index = 0;
        foreach (var group in Items(root, "group"))
        {
            var where = $"group[{index++}]";
            var system = CodeSystems.Canonical(Text(group, "source"));
            MapTarget? target = Text(group, "target") switch
            {
                CodeSystems.AirwayCare => MapTarget.Row,
                CodeSystems.AirwayCareAnswer => MapTarget.Answer,
                CodeSystems.DeviceKind => MapTarget.DeviceKind,
                CodeSystems.Ucum => MapTarget.Unit,
                _ => null,
            };
            if (system.Length == 0)
            {
                Fault(Codes.MapSourceMissing, where, "The group names no source system.");
            }
            else if (target is null)
            {
                Fault(Codes.MapTargetUnknown, where, "The group's target is no code system that is read here.");
            }
            else
            {
                ReadElements(group, where, system, target.Value);
            }
        }
    }

    private void ReadElements(JsonElement group, string groupWhere, string system, MapTarget target)
    {
        var index = 0;
        foreach (var element in Items(group, "element"))
        {
            var where = $"{groupWhere}.element[{index++}]";
            var code = Text(element, "code");
            var targets = Items(element, "target");
            if (code.Length == 0)
            {
                Fault(Codes.MapSourceMissing, where, "The element has no code.");
            }
            else if (system.Length + code.Length > LongestCode && target == MapTarget.Row)
            {
                Fault(Codes.MapSourceMissing, where, "System and code are longer than any row that is read.");
            }
            else if (!_seen.Add((system, code, target)))
            {
                Fault(Codes.MapSourceTwice, where, $"The code {code} stands twice.");
            }
            else if (targets.Count != 1)
            {
                Fault(Codes.MapTargetUnknown, where, $"The code {code} needs exactly one target.");
            }
            else
            {
                ReadTarget(targets[0], where, system, code, Text(element, "display"), target);
            }
        }
    }

    private void ReadTarget(JsonElement element, string where, string system, string code, string display, MapTarget target)
    {
        var equivalence = Text(element, "equivalence");
        if (!Equivalences.Contains(equivalence, StringComparer.Ordinal))
        {
            Fault(Codes.MapEquivalence, where, $"The code {code} has no equivalence of R4.");
            return;
        }

        if (equivalence is "unmatched" or "disjoint")
        {
            Entries.Add(new MapEntry(target, system, code, display, null, -1, Unit.Unknown));
            return;
        }

        var meant = Text(element, "code");
        if (!TryDependence(element, where, target, meant, out var answerTo))
        {
            return;
        }

        switch (target)
        {
            case MapTarget.Row when Concepts.TryFindInput(meant, out var concept):
                if (ReadProducts(element, where, concept, out var row))
                {
                    Entries.Add(new MapEntry(target, system, code, display, row with { IsInexact = equivalence == "inexact" }, -1, Unit.None));
                }

                break;
            case MapTarget.Answer when TryInputAnswer(meant, out var answer):
                Entries.Add(new MapEntry(target, system, code, display, null, answer, Unit.None) { AnswerTo = answerTo });
                break;
            case MapTarget.DeviceKind when Answers.TryFind(Concepts.DeviceKind, meant, out var kind):
                Entries.Add(new MapEntry(target, system, code, display, null, kind, Unit.None));
                break;
            case MapTarget.Unit when Units.FromUcum(meant) is var unit && unit != Unit.Unknown:
                Entries.Add(new MapEntry(target, system, code, display, null, -1, unit));
                break;
            case MapTarget.Unit:
                Fault(Codes.MapUnit, where, $"The unit {meant} is not known.");
                break;
            default:
                Fault(Codes.MapTargetUnknown, where, $"The target {meant} is not in its code system.");
                break;
        }
    }

    private bool ReadProducts(JsonElement element, string where, Concept concept, out RowMapping row)
    {
        row = new RowMapping(concept, Unit.None, 0, false, false);
        foreach (var product in Items(element, "product"))
        {
            var (property, value) = (Text(product, "property"), Text(product, "value"));
            switch (property)
            {
                case CodeSystems.DefaultUnit when Units.FromUcum(value) is var unit && unit != Unit.Unknown
                    && UnitFit.Fits(Concepts.Info(concept).Dimension, unit):
                    row = row with { DefaultUnit = unit };
                    break;
                case CodeSystems.DefaultUnit:
                    Fault(Codes.MapUnit, where, $"The default unit {value} is not known or does not fit {concept.Code}.");
                    return false;
                case CodeSystems.PassNumber when byte.TryParse(value, out var number) && number is >= 1 and <= 99:
                    row = row with { PassNumber = number };
                    break;
                case CodeSystems.Setting when value is "true" or "false":
                    row = row with { IsSetting = value == "true" };
                    break;
                case CodeSystems.PassNumber or CodeSystems.Setting:
                    Fault(Codes.MapProperty, where, "A pass number is 1 to 99, a setting is true or false.");
                    return false;
                case var _ when IsMeantForUs(property, CodeSystems.ProductProperties, out var near):
                    Fault(Codes.MapProperty, where, near is null ? "A product names no property that is known." : $"A product names no property that is known. Did you mean {near}?");
                    return false;
                default:
                    // Other properties belong to other readers of the same map.
                    break;
            }
        }

        return true;
    }

    // A condition that is passed over would make the mapping hold where its author says that it does not.
    private bool TryDependence(JsonElement element, string where, MapTarget target, string meant, out Concept? answerTo)
    {
        answerTo = null;
        foreach (var dependence in Items(element, "dependsOn"))
        {
            if (target != MapTarget.Answer || answerTo is not null || Text(dependence, "property") != CodeSystems.Row)
            {
                Fault(Codes.MapProperty, where, $"A dependency is read of an answer only, and once, as {CodeSystems.Row}.");
                return false;
            }

            if (!Concepts.TryFindInput(Text(dependence, "value"), out var concept) || !Concepts.Info(concept).Answers.Contains(meant, StringComparer.Ordinal))
            {
                Fault(Codes.MapProperty, where, $"The answer {meant} depends on a row that has no such answer.");
                return false;
            }

            answerTo = concept;
        }

        return true;
    }

    // Under our own address or a slip of the keys away from it, or under none: nobody else's.
    private static bool IsMeantForUs(string property, IReadOnlyList<string> ours, out string? near)
    {
        near = NearWord.Find(LastPart(property), ours.Select(LastPart)) is { } word ? ours.First(one => LastPart(one) == word) : null;
        return !Uri.TryCreate(property, UriKind.Absolute, out var address) || NearWord.Find(address.Host, [new Uri(CodeSystems.Base).Host]) is not null;
    }

    private static string LastPart(string address) => address[(address.AsSpan().TrimEnd('/').LastIndexOfAny('/', '#') + 1)..].TrimEnd('/');

    private static bool TryInputAnswer(string code, out int answer)
    {
        answer = -1;
        foreach (var info in Concepts.Table)
        {
            if (info.IsInput && info.Answers.Contains(code, StringComparer.Ordinal))
            {
                answer = Answers.Of(code);
                return true;
            }
        }

        return false;
    }

    private void Fault(DiagnosticCode code, string where, string why) =>
        _faults.Add(new Problem(code, where.Length == 0 ? _name : $"{_name} {where}", why));

    private static string Text(JsonElement element, string member) =>
        element.ValueKind == JsonValueKind.Object && element.TryGetProperty(member, out var value) && value.ValueKind == JsonValueKind.String
            ? value.GetString() ?? "" : "";

    private static List<JsonElement> Items(JsonElement element, string member) =>
        element.ValueKind == JsonValueKind.Object && element.TryGetProperty(member, out var value) && value.ValueKind == JsonValueKind.Array
            ? [.. value.EnumerateArray()] : [];
}
