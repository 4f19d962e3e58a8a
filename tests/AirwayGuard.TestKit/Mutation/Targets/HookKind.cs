using AirwayGuard.Fhir.CdsHooks;
using AirwayGuard.TestKit.Mutation.Mutators;

namespace AirwayGuard.TestKit.Mutation.Targets;

/// <summary>Questions of order entry through their reader, the check of whose they are, and the changes that a card may suggest.</summary>
internal sealed class HookKind(JsonInput[] inputs) : MutationKind
{
    private static readonly Hook[] Hooks = Enum.GetValues<Hook>();

    public override string Name => "hook";

    public override long BaseWork => 64 * 1024;

    public override long WorkPerByte => 60;

    public override byte[] Draw(Dice dice) => JsonMutator.Mutate(inputs, dice);

    public override string? Try(byte[] input, Dice dice)
    {
        var (request, fault) = HookRequestReader.Read(input, dice.OneOf(Hooks));
        if (request is null == fault is null)
        {
            return "It is neither read nor refused.";
        }

        return request is null ? HookFaults.Quoted(fault!) : !ReadingFaults.IsJson(input) ? "It is no JSON and was read." : OfRequest(request, dice);
    }

    private static string? OfRequest(HookRequest request, Dice dice)
    {
        var resources = request.Drafts.Concat(request.Prefetch.Values.SelectMany(part => part.Resources));
        if (resources.Any(one => one.Body.Span is not [(byte)'{', .., (byte)'}'] || !ReadingFaults.IsWellFormed(one.Body.Span)))
        {
            return "A resource of it is not the bytes of one.";
        }

        var index = dice.Next(3);
        var changed = request.Drafts.SelectMany(draft => new[]
        {
            OrderEdit.SetQuantity(draft.Body, index, 10.5m), OrderEdit.SetRangeHigh(draft.Body, index, 120m), OrderEdit.SetBoolean(draft.Body, index, false),
            OrderEdit.SetCoding(draft.Body, index, new CardCoding("urn:s", "a", "b")),
        });
        return changed.Any(one => one is { } order && !ReadingFaults.IsWellFormed(order.Span)) ? "A changed order is no JSON."
            : PatientCheck.Of(request, static _ => true) is { } mixed ? HookFaults.Quoted(mixed) : null;
    }
}
