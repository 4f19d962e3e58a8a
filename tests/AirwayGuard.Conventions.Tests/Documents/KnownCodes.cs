using System.Reflection;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Conventions.Tests.Documents;

/// <summary>The diagnostic codes that Core defines, by their ids.</summary>
internal static class KnownCodes
{
    public static IReadOnlyList<(string Field, DiagnosticCode Code)> All { get; } =
    [
        .. typeof(Codes).GetFields(BindingFlags.Public | BindingFlags.Static).Where(field => field.FieldType == typeof(DiagnosticCode))
            .Select(field => (field.Name, (DiagnosticCode)field.GetValue(null)!)).OrderBy(it => it.Item2.Id, StringComparer.Ordinal),
    ];

    /// <summary>Ids in a text: AG, a digit from 1 to 7 and three more.</summary>
    public static IEnumerable<string> In(string text)
    {
        for (var at = text.IndexOf("AG", StringComparison.Ordinal); at >= 0; at = text.IndexOf("AG", at + 1, StringComparison.Ordinal))
        {
            var isStart = at == 0 || !char.IsAsciiLetterOrDigit(text[at - 1]);
            if (isStart && at + 6 <= text.Length && IsId(text.AsSpan(at, 6)) && (at + 6 == text.Length || !char.IsAsciiLetterOrDigit(text[at + 6])))
            {
                yield return text.Substring(at, 6);
            }
        }
    }

    public static bool IsId(ReadOnlySpan<char> id) =>
        id.Length == 6 && id.StartsWith("AG") && id[2] is >= '1' and <= '8' && !id[2..].ContainsAnyExceptInRange('0', '9');
}
