namespace AirwayGuard.Core.Diagnostics;

/// <summary>
/// A stable name for one kind of trouble. The id (AG and four digits) never changes once released; the page
/// <c>docs/codes.md</c> has an entry for each.
/// </summary>
/// <param name="Id">AG1 configuration, AG2 reading, AG3 rule sets, AG4 intake, AG5 write-back, AG6 audit, AG7 the demo's FHIR server, AG8 CDS Hooks.</param>
/// <param name="Title">What is wrong, in a few words.</param>
/// <param name="Advice">What to do about it.</param>
public sealed record DiagnosticCode(string Id, string Title, string Advice)
{
    /// <inheritdoc />
    public override string ToString() => Id;
}
