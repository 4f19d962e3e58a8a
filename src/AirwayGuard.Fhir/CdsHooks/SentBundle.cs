namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>What an entry of a Bundle holds.</summary>
internal enum SentEntryState : byte
{
    Resource,

    /// <summary>No resource, or null for it.</summary>
    Empty,

    /// <summary>The entry is no object.</summary>
    NoEntry,

    /// <summary>The resource is no object.</summary>
    NoObject,

    /// <summary>The resource has no resourceType that R4 could have.</summary>
    NoType,
}

/// <param name="IsOutcome">About the search itself (search.mode outcome, or an OperationOutcome).</param>
internal readonly record struct SentEntry(SentEntryState State, string Type, string? Id, ReadOnlyMemory<byte> Body, bool IsOutcome);

/// <summary>A resource as it was sent, of a Bundle also its entries. Which it is may be told after them.</summary>
internal sealed class SentBundle
{
    private SentBundle()
    {
    }

    /// <summary>Null where it is no text that R4 could have for a type.</summary>
    public string? Type { get; private set; }

    public string? Id { get; private set; }

    public ReadOnlyMemory<byte> Body { get; private set; }

    public List<SentEntry> Entries { get; } = [];

    /// <summary>There is something called entry, and it is no list.</summary>
    public bool IsEntryNoList { get; private set; }

    /// <summary>Address of the page that follows.</summary>
    public string? Next { get; private set; }

    /// <summary>A page follows and has no address.</summary>
    public bool IsNextUnusable { get; private set; }

    /// <param name="cursor">On the beginning of the object; left on its end.</param>
    public static SentBundle Read(ref JsonCursor cursor)
    {
        var bundle = new SentBundle();
        var (start, isNoBundle) = (cursor.Start, false);
        var names = new MemberNames();
        while (cursor.NextMember(ref names))
        {
            if (cursor.Is("resourceType"u8))
            {
                cursor.Read();
                bundle.Type = FhirNames.TypeOrNull(cursor.TakeText().Text);
                isNoBundle = bundle.Type is not "Bundle";
            }
            else if (cursor.Is("id"u8))
            {
                cursor.Read();
                bundle.Id = Filled(cursor.TakeText().Text);
            }
            else if (!isNoBundle && cursor.Is("entry"u8))
            {
                cursor.Read();
                bundle.ReadEntries(ref cursor);
            }
            else if (!isNoBundle && cursor.Is("link"u8))
            {
                cursor.Read();
                bundle.ReadLinks(ref cursor);
            }
            else
            {
                cursor.Read();
                cursor.Skip();
            }
        }

        bundle.Body = cursor.Since(start);
        return bundle;
    }

    private void ReadEntries(ref JsonCursor cursor)
    {
        if (!cursor.IsArray)
        {
            IsEntryNoList = !cursor.IsNull;
            cursor.Skip();
            return;
        }

        while (cursor.NextItem())
        {
            Entries.Add(ReadEntry(ref cursor));
        }
    }

    private static SentEntry ReadEntry(ref JsonCursor cursor)
    {
        if (!cursor.IsObject)
        {
            cursor.Skip();
            return new SentEntry(SentEntryState.NoEntry, "", null, default, false);
        }

        var entry = new SentEntry(SentEntryState.Empty, "", null, default, false);
        var isOutcome = false;
        var names = new MemberNames();
        while (cursor.NextMember(ref names))
        {
            if (cursor.Is("resource"u8))
            {
                cursor.Read();
                entry = ReadResource(ref cursor);
            }
            else if (cursor.Is("search"u8))
            {
                cursor.Read();
                isOutcome = IsOutcomeMode(ref cursor);
            }
            else
            {
                cursor.Read();
                cursor.Skip();
            }
        }

        return entry with { IsOutcome = isOutcome || entry.Type == "OperationOutcome" };
    }

    private static SentEntry ReadResource(ref JsonCursor cursor)
    {
        if (!cursor.IsObject)
        {
            var state = cursor.IsNull ? SentEntryState.Empty : SentEntryState.NoObject;
            cursor.Skip();
            return new SentEntry(state, "", null, default, false);
        }

        var start = cursor.Start;
        string? type = null, id = null;
        var names = new MemberNames();
        while (cursor.NextMember(ref names))
        {
            var (isType, isId) = (cursor.Is("resourceType"u8), cursor.Is("id"u8));
            cursor.Read();
            if (isType)
            {
                type = FhirNames.TypeOrNull(cursor.TakeText().Text);
            }
            else if (isId)
            {
                id = Filled(cursor.TakeText().Text);
            }
            else
            {
                cursor.Skip();
            }
        }

        return new SentEntry(type is null ? SentEntryState.NoType : SentEntryState.Resource, type ?? "", id, cursor.Since(start), false);
    }

    private static bool IsOutcomeMode(ref JsonCursor cursor)
    {
        if (!cursor.IsObject)
        {
            cursor.Skip();
            return false;
        }

        var isOutcome = false;
        var names = new MemberNames();
        while (cursor.NextMember(ref names))
        {
            var isMode = cursor.Is("mode"u8);
            cursor.Read();
            isOutcome |= cursor.TakeText().Text == "outcome" && isMode;
        }

        return isOutcome;
    }

    private void ReadLinks(ref JsonCursor cursor)
    {
        if (!cursor.IsArray)
        {
            cursor.Skip();
            return;
        }

        while (cursor.NextItem())
        {
            ReadLink(ref cursor);
        }
    }

    private void ReadLink(ref JsonCursor cursor)
    {
        if (!cursor.IsObject)
        {
            cursor.Skip();
            return;
        }

        string? relation = null, url = null;
        var names = new MemberNames();
        while (cursor.NextMember(ref names))
        {
            var (isRelation, isUrl) = (cursor.Is("relation"u8), cursor.Is("url"u8));
            cursor.Read();
            var text = cursor.TakeText().Text;
            (relation, url) = (isRelation ? text : relation, isUrl ? text : url);
        }

        if (relation == "next")
        {
            Next ??= Filled(url);
            IsNextUnusable |= Next is null;
        }
    }

    private static string? Filled(string? text) => string.IsNullOrEmpty(text) ? null : text;
}
