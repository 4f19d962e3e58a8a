using System.Collections.Immutable;
using AirwayGuard.Core.SignOffs;

namespace AirwayGuard.Worker.SignOffs;

/// <summary>What a person asks to be done to a rule set.</summary>
/// <param name="Document">The whole document to be promoted; empty for another act.</param>
/// <param name="File">What the document is called in messages.</param>
/// <param name="Checks">Ids of checks; empty for all.</param>
/// <param name="Units">Places as charting names them; empty for all.</param>
public sealed record SignOffRequest(
    SignOffAct Act, ReadOnlyMemory<byte> Document, string File, ImmutableArray<string> Checks, ImmutableArray<string> Units, string By, string Reason)
{
    /// <summary>When it was asked, where it waits for the service; whoever asked has long gone after a while.</summary>
    public DateTimeOffset Posted { get; init; }

    /// <summary>Says its act only.</summary>
    public override string ToString() => $"SignOffRequest({Act})";
}

/// <summary>What became of it: one line of what was done, or why not.</summary>
public sealed record SignOffAnswer(string Said, Core.Diagnostics.Problem? Problem)
{
    public static SignOffAnswer Done(string said) => new(said, null);

    public static SignOffAnswer Refused(Core.Diagnostics.DiagnosticCode code, string where, string why) => new("", new Core.Diagnostics.Problem(code, where, why));
}
