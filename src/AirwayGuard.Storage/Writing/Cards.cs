using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Entities;

namespace AirwayGuard.Storage.Writing;

/// <summary>Cards given in answer to questions.</summary>
internal static class Cards
{
    /// <param name="names">Of the patients, where they are not saved yet.</param>
    public static bool Answer(WriteSession session, IReadOnlyList<HookAnswer> answers, List<KnownEntity> names)
    {
        session.SaveNames(names, new Position(session.Newest.Value + 1));
        var bases = new Dictionary<string, long>(StringComparer.Ordinal);
        foreach (var answer in answers)
        {
            foreach (var card in answer.Cards.IsDefault ? [] : answer.Cards)
            {
                if (!bases.TryGetValue(answer.BasisSha256, out var basis))
                {
                    bases[answer.BasisSha256] = basis = Bases.Number(session.Database, answer.BasisSha256);
                }

                Insert(session, answer, card, basis);
            }

            session.Audit(answer.Note, session.Now);
        }

        return true;
    }

    private static void Insert(WriteSession session, HookAnswer answer, GivenCard card, long basis) =>
        session.Database.Prepared("INSERT INTO cards (card, service, hook, at, basis, subject, check_id, severity, content) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9) ON CONFLICT (card) DO NOTHING")
            .Bind(1, card.Id).Bind(2, answer.Service).Bind(3, answer.Hook).Bind(4, answer.At.UtcTicks).Bind(5, basis)
            .Bind(6, answer.Patient.IsNone ? null : (long?)answer.Patient.Packed).Bind(7, card.Check).Bind(8, (long)card.Severity).Bind(9, card.Content)
            .Run();
}
