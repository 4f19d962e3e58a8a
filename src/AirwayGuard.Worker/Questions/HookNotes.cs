using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Questions;

/// <summary>What the audit trail says of an answer: which checks spoke by which basis, and nothing of what was charted or ordered.</summary>
internal static class HookNotes
{
    public const string What = "question-answered";

    public static AuditNote Of(Asking asking, IReadOnlyCollection<GivenCard> cards) =>
        Of(asking.Service, asking.Basis.Names.BasisSha256, cards, asking.Followed.IsNone ? "question" : "ledger");

    /// <param name="from">Where the charting came from: <c>ledger</c>, or <c>question</c>.</param>
    public static AuditNote Of(string service, string basis, IReadOnlyCollection<GivenCard> cards, string from) => new(
        What, service,
        CardContent.Written((basis, cards, from), static (json, answer) =>
        {
            json.WriteString("basis"u8, answer.basis);
            json.WriteStartArray("cards"u8);
            foreach (var card in answer.cards)
            {
                json.WriteStartObject();
                json.WriteString("card"u8, card.Id);
                json.WriteString("check"u8, card.Check);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteString("from"u8, answer.from);
        }),
        default);
}
