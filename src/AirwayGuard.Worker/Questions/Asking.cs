using AirwayGuard.Core.Charting;
using AirwayGuard.Fhir.CdsHooks;
using AirwayGuard.Worker.Judging;

namespace AirwayGuard.Worker.Questions;

/// <summary>One question about orders while it is answered.</summary>
/// <param name="Meant">Drafts that cards may be about.</param>
/// <param name="Unread">Drafts that could not be read at all.</param>
/// <param name="Judge">By the rules as they speak where the patient is.</param>
/// <param name="Followed">The patient as the ledger knows it; none where it does not.</param>
internal sealed record Asking(
    HookRequest Request, string Service, List<AskedOrder> Orders, HashSet<Entity> Meant, List<AskedOrder> Unread, QuestionChart Chart, OrderJudge Judge, ServiceBasis Basis, DateTimeOffset Now, Entity Followed)
{
    /// <summary>Says its service only.</summary>
    public override string ToString() => $"Asking({Service})";
}
