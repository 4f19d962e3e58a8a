using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Fhir.Terminology;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>What kind of device a type or code says. The order of the codings decides nothing.</summary>
internal static class DeviceKinds
{
    private static readonly int Other = Answers.Of("other");

    /// <summary>Every kind that the codings name, each once; else the one of the text, and <c>other</c> where a code of another system stands alone.</summary>
    public static IReadOnlyList<int> Of(CodeableConcept? type, Scribe scribe)
    {
        var kinds = new List<int>();
        var isElsewhere = false;
        foreach (var coding in type?.Coding ?? [])
        {
            var (system, code) = (Raw.Text(coding.SystemElement), Raw.Text(coding.CodeElement) ?? "");
            isElsewhere |= code.Length > 0 && !IsOwn(system);
            if (scribe.Map.TryDeviceKind(system, code, out var kind) && !kinds.Contains(kind))
            {
                kinds.Add(kind);
            }
        }

        return kinds.Count > 0 ? kinds
            : scribe.Map.TryAnswerText(Concepts.DeviceKind, Raw.Text(type?.TextElement), out var named) ? [named]
            : isElsewhere && !HasUnknown(type, scribe) ? [Other]
            : [];
    }

    /// <summary>Tells of a code of AirwayGuard's own device kinds that does not exist, with the one it is near to.</summary>
    /// <param name="path">Where the codings stand in the resource.</param>
    public static void TellUnknown(CodeableConcept? type, string path, Scribe scribe)
    {
        for (var i = 0; i < type?.Coding.Count; i++)
        {
            if (IsUnknown(type.Coding[i], scribe))
            {
                RowMeaning.TellUnknown(
                    Raw.Text(type.Coding[i].CodeElement) ?? "", string.Create(CultureInfo.InvariantCulture, $"{path}.coding[{i}]"), "device-kind",
                    Concepts.Info(Concepts.DeviceKind).Answers, scribe);
                return;
            }
        }
    }

    private static bool HasUnknown(CodeableConcept? type, Scribe scribe) => type?.Coding.Exists(coding => IsUnknown(coding, scribe)) == true;

    private static bool IsUnknown(Coding coding, Scribe scribe) =>
        IsOwn(Raw.Text(coding.SystemElement)) && !scribe.Map.TryDeviceKind(CodeSystems.DeviceKind, Raw.Text(coding.CodeElement) ?? "", out _);

    private static bool IsOwn(string? system) => system == CodeSystems.DeviceKind;
}
