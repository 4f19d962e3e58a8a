using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Core.Ports;

/// <summary>A card given in answer to a question, as it is kept so that what is said of it later can be told apart.</summary>
/// <param name="Id">The card's <c>uuid</c>.</param>
/// <param name="Check">The check that breached; empty for a card that says what could not be judged.</param>
/// <param name="Content">Canonical JSON of what the card rests on: patient data.</param>
public sealed record GivenCard(Guid Id, string Check, Severity Severity, string Content)
{
    /// <summary>Says its check only.</summary>
    public override string ToString() => $"GivenCard({Check})";
}

/// <summary>An answer to a question: its cards, and what the audit trail says of it.</summary>
/// <param name="Service">The service's id in its address.</param>
/// <param name="Hook">E.g. <c>order-sign</c>.</param>
/// <param name="At">When it was judged.</param>
/// <param name="BasisSha256">By what it was judged.</param>
/// <param name="Patient">None where the ledger does not know whose it was.</param>
public sealed record HookAnswer(string Service, string Hook, DateTimeOffset At, string BasisSha256, Entity Patient, ImmutableArray<GivenCard> Cards, AuditNote Note)
{
    /// <summary>Says its service only.</summary>
    public override string ToString() => $"HookAnswer({Service}, {Cards.Length})";
}

/// <summary>What became of a card.</summary>
public enum CardOutcome : byte
{
    Accepted,
    Overridden,
}

/// <summary>What a person did with a card, as the EHR reports it.</summary>
/// <param name="At">When, as reported; with card and outcome the key on which reports dedupe.</param>
/// <param name="ReasonSystem">Of the reason's coding; empty for none.</param>
/// <param name="ReasonCode">Empty where no reason was chosen.</param>
/// <param name="Comment">The person's own words, which are patient data; empty for none.</param>
/// <param name="Suggestions">Suggestions that were taken.</param>
public sealed record CardFeedback(
    Guid Card, CardOutcome Outcome, DateTimeOffset At, string ReasonSystem, string ReasonCode, string ReasonDisplay, string Comment, ImmutableArray<Guid> Suggestions)
{
    /// <summary>When the report came; null until it is kept.</summary>
    public DateTimeOffset? KeptAt { get; init; }

    /// <summary>When it counts as said: never later than it came, whatever the sender's clock says.</summary>
    public DateTimeOffset SaidAt => KeptAt is { } kept && kept < At ? kept : At;

    /// <summary>Says the card and outcome only.</summary>
    public override string ToString() => $"CardFeedback({Card}, {Outcome})";
}

/// <summary>What became of one report on a card.</summary>
public enum FeedbackKept : byte
{
    Kept,

    /// <summary>The same card, outcome and time were reported before: nothing changed.</summary>
    Repeated,

    /// <summary>No such card was given by this service.</summary>
    CardUnknown,
}

/// <summary>A token that may be used once.</summary>
/// <param name="Issuer">Who issued it; ids are unique per issuer.</param>
/// <param name="Until">It need not be remembered after this.</param>
public sealed record UsedToken(string Issuer, string Id, DateTimeOffset Until)
{
    /// <summary>Says its issuer only.</summary>
    public override string ToString() => $"UsedToken({Issuer})";
}

/// <summary>A card that was given, with everything reported on it, oldest first.</summary>
public sealed record CardHistory(Guid Card, string Service, string Hook, string Check, Severity Severity, DateTimeOffset At, ImmutableArray<CardFeedback> Feedback)
{
    /// <summary>Says its card only.</summary>
    public override string ToString() => $"CardHistory({Card})";
}
