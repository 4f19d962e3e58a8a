namespace AirwayGuard.Core.Diagnostics;

/// <summary>Something that could not be used as it was, told to a person. Never quotes charted content but a unit or a code.</summary>
/// <param name="Code">Its stable code.</param>
/// <param name="Where">The resource (<c>Type/id</c>), file and line, or option concerned.</param>
/// <param name="Why">What was wrong, in one sentence.</param>
public sealed record Problem(DiagnosticCode Code, string Where, string Why)
{
    /// <summary>One line for a person: code, place, reason, advice.</summary>
    public string AsLine() => PlainText.Visible($"{Code.Id}  {Where}: {Why}{(Why.EndsWith('.') || Why.EndsWith('?') ? "" : ".")} {Code.Advice}");
}
