using System.Collections.Immutable;
using System.Globalization;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Questions;
using AirwayGuard.Fhir.CdsHooks;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Worker.Judging;

namespace AirwayGuard.Worker.Questions;

/// <summary>What became of a report on cards.</summary>
/// <param name="Kept">How many are new.</param>
/// <param name="Repeated">How many were known.</param>
public sealed record FeedbackReply(int Kept, int Repeated, HookFault? Fault);

/// <summary>Where an EHR's questions come in, whoever asks. Safe for concurrent use.</summary>
public sealed class HookDesk(OrderQuestions orders, PatientViews views, HookFetch fetch, ILedger ledger, AnswerBook book, BasisInForce inForce, CodeMap map, TimeProvider clock)
{
    /// <summary>What this service can be asked.</summary>
    public IReadOnlyList<HookService> Services()
    {
        var prefetch = HookPrefetch.Of(map, OrderQuestion.Of(inForce.Current.Rules)).Select(static key => (key.Key, key.Query)).ToImmutableArray();
        const string Needs = "Patients whose charting the service reads from its own FHIR server need no prefetch. For others either every key is sent, or fhirServer with fhirAuthorization.";
        return
        [
            new HookService(
                HookServices.OrderSign, Hook.OrderSign, "Suction orders before signing",
                "Judges draft orders of airway suction by the hospital's suction policy: vacuum, catheter, depth, saline, timing, oxygen.", prefetch, Needs),
            new HookService(
                HookServices.OrderSelect, Hook.OrderSelect, "Suction orders while being written",
                "The same for the orders just selected.", prefetch, Needs),
            new HookService(
                HookServices.PatientView, Hook.PatientView, "Standing suction findings",
                "What stands of the suction policy for the patient whose chart is opened: the same that the Flags say.", [], "Answers for patients whose charting the service reads from its own FHIR server."),
        ];
    }

    public async ValueTask<HookReply> AnswerAsync(string service, ReadOnlyMemory<byte> body, CancellationToken stop)
    {
        if (HookServices.HookOf(service) is not { } hook)
        {
            return HookReply.Refused(new HookFault(Codes.HookServiceUnknown, "", "There is no service of this id.", 404));
        }

        var (request, fault) = HookRequestReader.Read(body, hook);
        fault ??= PatientCheck.Of(request!, fetch.IsOnOurs) ?? AskedOrders.Twice(request!);
        if (fault is null && request!.FhirServer is { } fhirServer && !fetch.IsOurs(fhirServer))
        {
            fault = new HookFault(Codes.HookServerForeign, "fhirServer", "It is neither the configured FHIR server nor a listed alias of it; nothing was read from it and nothing judged.", 400);
        }

        return fault is not null ? HookReply.Refused(fault)
            : hook == Hook.PatientView ? await views.AnswerAsync(request!, service, stop)
            : await orders.AnswerAsync(request!, service, stop);
    }

    public async ValueTask<FeedbackReply> FeedbackAsync(string service, ReadOnlyMemory<byte> body, CancellationToken stop)
    {
        if (HookServices.HookOf(service) is null)
        {
            return new FeedbackReply(0, 0, new HookFault(Codes.HookServiceUnknown, "", "There is no service of this id.", 404));
        }

        var read = FeedbackReader.Read(body);
        // A card may be answered before it was kept.
        await book.StepAsync(stop);
        var kept = await ledger.KeepFeedbackAsync(service, [.. read.Entries.Select(static entry => entry.Feedback)], clock.GetUtcNow(), stop);
        var unknown = read.Entries.Where((_, at) => kept[at] == FeedbackKept.CardUnknown).Select(static entry => entry.Index).ToList();
        var trouble = read.Faults.Length > 0 ? read.Faults[0]
            : unknown.Count > 0 ? new HookFault(Codes.FeedbackCardUnknown, string.Create(CultureInfo.InvariantCulture, $"feedback[{unknown[0]}].card"), Unknown(unknown.Count), 404)
            : null;
        return new FeedbackReply(kept.Count(static one => one == FeedbackKept.Kept), kept.Count(static one => one == FeedbackKept.Repeated), trouble);
    }

    private static string Unknown(int count) => count == 1
        ? "This service gave no card of this uuid."
        : string.Create(CultureInfo.InvariantCulture, $"This service gave no cards of these {count} uuids; the first is named.");
}
