using System.Collections.Immutable;
using AirwayGuard.Core.Findings;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>One spell as a Flag. Pure: the same message and links give the same resource.</summary>
public static class FlagBuilder
{
    /// <summary>Whether a Flag may stand on this: a Patient or a Location, never a Device (R4 Flag.subject, which allows more).</summary>
    public static bool MayStandOn(string subject) =>
        subject.StartsWith("Patient/", StringComparison.Ordinal) || subject.StartsWith("Location/", StringComparison.Ordinal);

    /// <param name="author">Reference to the author Device.</param>
    /// <param name="issues">Literal references (<c>DetectedIssue/id</c> or <c>urn:uuid:</c>) of the issues that have one; the others are named by identifier.</param>
    /// <exception cref="ArgumentException">The subject is no Patient or Location.</exception>
    public static Flag Build(FlagMessage message, ResourceReference author, IReadOnlyDictionary<Guid, string> issues)
    {
        ArgumentNullException.ThrowIfNull(message);
        ArgumentNullException.ThrowIfNull(issues);
        if (!MayStandOn(message.Subject))
        {
            throw new ArgumentException("A Flag stands on a Patient or a Location.", nameof(message));
        }

        return new Flag
        {
            Meta = WrittenText.MetaOf(message.RunMode),
            Text = Narratives.Of(Paragraphs(message)),
            Extension = [.. Details(message, issues), PriorityOf(message)],
            Identifier = [new Identifier(WrittenSystems.Flag, message.Key.ToString("D"))],
            Status = StatusOf(message.Status),
            Category = [new CodeableConcept(WrittenSystems.FlagCategory, "safety", "Safety", null)],
            Code = WrittenText.Check(message.Check, WrittenText.OrNull(WrittenText.Join([message.Text, message.LateBreachAt is null ? "" : WrittenText.KnownLate]))),
            Subject = new ResourceReference(message.Subject),
            Encounter = message.Encounter is null ? null : new ResourceReference(message.Encounter),
            Period = new Period
            {
                Start = WrittenText.Instant(message.PeriodStart),
                End = message.PeriodEnd is { } end ? WrittenText.Instant(end) : null,
            },
            Author = author,
        };
    }

    internal static Flag.FlagStatus StatusOf(FlagStatus status) => status switch
    {
        FlagStatus.Active => Flag.FlagStatus.Active,
        FlagStatus.Inactive => Flag.FlagStatus.Inactive,
        FlagStatus.EnteredInError => Flag.FlagStatus.EnteredInError,
        _ => throw new ArgumentOutOfRangeException(nameof(status), status, "No such status."),
    };

    private static IEnumerable<Extension> Details(FlagMessage message, IReadOnlyDictionary<Guid, string> issues)
    {
        foreach (var key in message.Issues.IsDefault ? ImmutableArray<Guid>.Empty : message.Issues)
        {
            yield return new Extension(WrittenSystems.FlagDetail, new ResourceReference
            {
                Reference = issues.GetValueOrDefault(key),
                Type = "DetectedIssue",
                Identifier = new Identifier(WrittenSystems.Finding, key.ToString("D")),
            });
        }

        if (message.Replaces is { } replaced)
        {
            yield return new Extension(WrittenSystems.FlagDetail, new ResourceReference
            {
                Type = "Flag",
                Identifier = new Identifier(WrittenSystems.Flag, replaced.ToString("D")),
                Display = "Shown before and closed by a person",
            });
        }
    }

    private static Extension PriorityOf(FlagMessage message)
    {
        var (code, display) = WrittenText.PriorityOf(message.Severity);
        return new Extension(WrittenSystems.FlagPriority, new CodeableConcept(WrittenSystems.FlagPriorityCode, code, display, null));
    }

    private static IEnumerable<string> Paragraphs(FlagMessage message)
    {
        if (message.Status == FlagStatus.EnteredInError)
        {
            yield return WrittenText.Join(["Withdrawn.", message.Reason]);
        }
        else if (WrittenText.OrNull(message.Reason) is { } reason)
        {
            yield return reason;
        }

        yield return message.Text;
        if (message.LateBreachAt is { } happened)
        {
            yield return $"Happened {WrittenText.Time(happened)}. {WrittenText.KnownLate}";
        }

        yield return message.PeriodEnd is { } end
            ? $"From {WrittenText.Time(message.PeriodStart)} to {WrittenText.Time(end)}."
            : $"Since {WrittenText.Time(message.PeriodStart)}.";
        if (message.Replaces is not null)
        {
            yield return "Shown again after a person closed an earlier flag of the same spell.";
        }
    }
}
