using System.Collections.Immutable;
using System.Globalization;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>The members of a request as they were sent, before anything is asked of them.</summary>
internal sealed class SentRequest(Hook expected)
{
    private const int LongestSelection = 2048;

    public SentText Hook { get; private set; }

    public SentText Instance { get; private set; }

    public SentText Server { get; private set; }

    public bool HasContext { get; private set; }

    public SentText Patient { get; private set; }

    public SentText Encounter { get; private set; }

    /// <summary>Null where none were sent.</summary>
    public SentDrafts? Drafts { get; private set; }

    public List<string> Selections { get; } = [];

    public HookFault? SelectionsFault { get; private set; } = Fault("context.selections", "It is required: the orders that were just chosen.");

    public bool HasAccess { get; private set; }

    public bool IsAccessUnusable { get; private set; }

    public SentText Token { get; private set; }

    public SentText TokenType { get; private set; }

    public ImmutableDictionary<string, PrefetchPart>.Builder Prefetch { get; } = ImmutableDictionary.CreateBuilder<string, PrefetchPart>(StringComparer.Ordinal);

    public bool IsPrefetchUnusable { get; private set; }

    public bool HasTooManyKeys { get; private set; }

    /// <param name="cursor">On the beginning of the request; left on its end.</param>
    public void Read(ref JsonCursor cursor)
    {
        var names = new MemberNames();
        while (cursor.NextMember(ref names))
        {
            if (cursor.Is("hook"u8))
            {
                Hook = Take(ref cursor);
            }
            else if (cursor.Is("hookInstance"u8))
            {
                Instance = Take(ref cursor);
            }
            else if (cursor.Is("fhirServer"u8))
            {
                Server = Take(ref cursor);
            }
            else if (cursor.Is("context"u8))
            {
                HasContext = Enter(ref cursor, ReadContext);
            }
            else if (cursor.Is("fhirAuthorization"u8))
            {
                HasAccess = Enter(ref cursor, ReadAccess);
                IsAccessUnusable = !HasAccess && !cursor.IsNull;
            }
            else if (cursor.Is("prefetch"u8))
            {
                IsPrefetchUnusable = !Enter(ref cursor, ReadPrefetch) && !cursor.IsNull;
            }
            else
            {
                Pass(ref cursor);
            }
        }
    }

    private void ReadContext(ref JsonCursor cursor)
    {
        var names = new MemberNames();
        while (cursor.NextMember(ref names))
        {
            // Who asks is not read: a check that keeps a patient safe must not fail on it.
            if (cursor.Is("patientId"u8))
            {
                Patient = Take(ref cursor);
            }
            else if (cursor.Is("encounterId"u8))
            {
                Encounter = Take(ref cursor);
            }
            else if (expected != CdsHooks.Hook.PatientView && cursor.Is("draftOrders"u8))
            {
                cursor.Read();
                Drafts = SentDrafts.Read(ref cursor, "context.draftOrders");
            }
            else if (expected == CdsHooks.Hook.OrderSelect && cursor.Is("selections"u8))
            {
                cursor.Read();
                ReadSelections(ref cursor);
            }
            else
            {
                Pass(ref cursor);
            }
        }
    }

    private void ReadSelections(ref JsonCursor cursor)
    {
        if (!cursor.IsArray)
        {
            cursor.Skip();
            return;
        }

        SelectionsFault = null;
        for (var i = 0; cursor.NextItem(); i++)
        {
            if (cursor.TakeText().Text is { Length: > 0 and <= LongestSelection } chosen)
            {
                Selections.Add(chosen);
            }
            else
            {
                SelectionsFault ??= Fault(string.Create(CultureInfo.InvariantCulture, $"context.selections[{i}]"), "It is no reference to an order.");
            }
        }
    }

    private void ReadAccess(ref JsonCursor cursor)
    {
        var names = new MemberNames();
        while (cursor.NextMember(ref names))
        {
            if (cursor.Is("access_token"u8))
            {
                Token = Take(ref cursor);
            }
            else if (cursor.Is("token_type"u8))
            {
                TokenType = Take(ref cursor);
            }
            else
            {
                Pass(ref cursor);
            }
        }
    }

    private void ReadPrefetch(ref JsonCursor cursor)
    {
        var names = new MemberNames();
        for (var number = 0; cursor.NextMember(ref names); number++)
        {
            HasTooManyKeys = number >= HookRequestReader.MostPrefetchKeys;
            if (HasTooManyKeys)
            {
                Pass(ref cursor);
                continue;
            }

            var key = cursor.Name;
            cursor.Read();
            Prefetch[key] = SentPrefetch.Read(ref cursor, Where(key, number));
        }
    }

    // What a client calls a key may be anything.
    private static string Where(string key, int number) =>
        key.Length <= 64 && key.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_') ? $"prefetch.{key}" : string.Create(CultureInfo.InvariantCulture, $"prefetch[{number}]");

    private static SentText Take(ref JsonCursor cursor)
    {
        cursor.Read();
        return cursor.TakeText();
    }

    private static void Pass(ref JsonCursor cursor)
    {
        cursor.Read();
        cursor.Skip();
    }

    private static bool Enter(ref JsonCursor cursor, JsonBody.Walk walk)
    {
        cursor.Read();
        if (cursor.IsObject)
        {
            walk(ref cursor);
            return true;
        }

        cursor.Skip();
        return false;
    }

    private static HookFault Fault(string where, string why) => new(Codes.HookFieldUnusable, where, why, 400);
}
