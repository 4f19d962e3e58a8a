using System.Text;
using System.Text.Json;
using AirwayGuard.Fhir.Reading;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>
/// A draft order as it will be once signed: a draft is active, what was proposed is ordered, it is the context patient's where it names nobody,
/// and it is written now unless it says exactly when before. Everything else stays byte for byte.
/// </summary>
internal static class SignedDraft
{
    private static readonly string[] Orders = ["ServiceRequest", "DeviceRequest"];

    /// <returns>The same bytes where it is no order we read, or no object.</returns>
    public static ReadOnlyMemory<byte> Of(string type, ReadOnlyMemory<byte> body, string patientId, DateTimeOffset now)
    {
        if (!Orders.Contains(type, StringComparer.Ordinal))
        {
            return body;
        }

        var (changes, end) = (new List<Change>(), 0);
        try
        {
            end = Look(body.Span, patientId, now, changes);
        }
        catch (JsonException)
        {
            // Not well-formed: whoever reads it says what is wrong.
            return body;
        }

        return end == 0 ? body : Splice(body.Span, changes);
    }

    private static int Look(ReadOnlySpan<byte> body, string patientId, DateTimeOffset now, List<Change> changes)
    {
        var reader = new Utf8JsonReader(body);
        if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject)
        {
            return 0;
        }

        var ends = (int)reader.BytesConsumed;
        var (hasStatus, hasIntent, hasSubject, hasTime) = (false, false, false, false);
        var written = $"\"{now.UtcDateTime:yyyy-MM-dd'T'HH:mm:ss.fffffff'Z'}\"";
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var name = reader.ValueTextEquals("status"u8) ? "status" : reader.ValueTextEquals("intent"u8) ? "intent"
                : reader.ValueTextEquals("subject"u8) ? "subject" : reader.ValueTextEquals("authoredOn"u8) ? "authoredOn" : "";
            reader.Read();
            var from = (int)reader.TokenStartIndex;
            var text = name.Length > 0 && reader.TokenType == JsonTokenType.String ? reader.GetString() : null;
            reader.Skip();
            var to = ends = (int)reader.BytesConsumed;
            switch (name)
            {
                case "status":
                    hasStatus = true;
                    Put(changes, text == "draft", from, to, "\"active\"");
                    break;
                case "intent":
                    hasIntent = true;
                    Put(changes, text is "proposal" or "plan" or "directive", from, to, "\"order\"");
                    break;
                case "subject":
                    hasSubject = true;
                    break;
                case "authoredOn":
                    hasTime = true;
                    Put(changes, !IsBefore(text, now), from, to, written);
                    break;
            }
        }

        var added = new StringBuilder()
            .Append(hasStatus ? "" : ",\"status\":\"active\"")
            .Append(hasIntent ? "" : ",\"intent\":\"order\"")
            .Append(hasTime ? "" : $",\"authoredOn\":{written}")
            .Append(hasSubject ? "" : $",\"subject\":{{\"reference\":\"Patient/{patientId}\"}}");
        // A resource has its type at least, so that something stands before.
        Put(changes, added.Length > 0, ends, ends, added.ToString());
        return (int)reader.BytesConsumed;
    }

    // A date alone, a time without offset or one to come does not say when before now it was written.
    private static bool IsBefore(string? written, DateTimeOffset now) =>
        written is not null && FhirTime.Read(Encoding.UTF8.GetBytes(written), out var ticks, out _) == TimeForm.Exact && ticks <= now.UtcTicks;

    private static void Put(List<Change> changes, bool isNeeded, int from, int to, string text)
    {
        if (isNeeded)
        {
            changes.Add(new Change(from, to, text));
        }
    }

    private static byte[] Splice(ReadOnlySpan<byte> body, List<Change> changes)
    {
        var whole = new byte[body.Length + changes.Sum(static change => Encoding.UTF8.GetByteCount(change.Text) - (change.To - change.From))];
        var into = whole.AsSpan();
        var at = 0;
        foreach (var change in changes.OrderBy(static change => change.From))
        {
            body[at..change.From].CopyTo(into);
            into = into[(change.From - at)..];
            into = into[Encoding.UTF8.GetBytes(change.Text, into)..];
            at = change.To;
        }

        body[at..].CopyTo(into);
        return whole;
    }

    private readonly record struct Change(int From, int To, string Text);
}
