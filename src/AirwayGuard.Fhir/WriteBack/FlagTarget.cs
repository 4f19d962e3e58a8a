using AirwayGuard.Core.Findings;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>A Flag on its way. One that holds another's version is only ever set inactive; one that a person closed is left alone.</summary>
internal sealed class FlagTarget(FlagMessage message, ResourceReference author, IReadOnlyDictionary<Guid, string> issues)
    : WriteTarget(WrittenSystems.Flag, message.Key, FlagBuilder.Build(message, author, issues), message.Basis, message.RunMode)
{
    public override ResourceReference? SubjectOf(Resource resource) => ((Flag)resource).Subject;

    public override bool Withdraws => message.Status == FlagStatus.EnteredInError;

    public override IEnumerable<string> Sources => message.Evidence.Select(item => item.Reference);

    public override IEnumerable<string> SourcesOf(Resource standing) =>
        ((Flag)standing).Extension
            .Where(extension => extension.Url == WrittenSystems.FlagDetail)
            .Select(extension => (extension.Value as ResourceReference)?.Reference)
            .OfType<string>();

    // Where we ended a Flag that holds another's work, it is marked as shared.
    public override bool IsEndedByPerson(Resource standing) => !IsActive((Flag)standing) && !IsShared(standing);

    public override bool DeletionEnds => true;

    public override bool TryEnd(Resource standing)
    {
        var flag = (Flag)standing;
        if (message.Status == FlagStatus.Active || !IsActive(flag))
        {
            return false;
        }

        flag.Status = Flag.FlagStatus.Inactive;
        if (message.PeriodEnd is { } end && flag.Period?.EndElement is null)
        {
            flag.Period ??= new Period();
            flag.Period.End = WrittenText.Instant(end);
        }

        if (WrittenText.OrNull(message.Reason) is { } reason)
        {
            Narratives.Append(flag, reason);
        }

        return true;
    }

    public override void TakeBack(Resource copy)
    {
        var flag = (Flag)copy;
        flag.Status = Flag.FlagStatus.EnteredInError;
        Narratives.Append(flag, SecondCopy);
    }

    private static bool IsActive(Flag flag) => flag.StatusElement?.JsonValue is "active";
}
