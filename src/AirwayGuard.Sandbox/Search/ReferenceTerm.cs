namespace AirwayGuard.Sandbox.Search;

/// <summary>Reference values: an id, <c>Type/id</c> or an absolute address (R4 search.html#reference).</summary>
internal static class ReferenceTerm
{
    public static Condition Read(string value, string type, string baseAddress)
    {
        var text = SearchText.Unescape(value);
        if (baseAddress.Length > 0 && text.StartsWith(baseAddress + "/", StringComparison.Ordinal))
        {
            text = text[(baseAddress.Length + 1)..];
        }

        var address = ReferenceAddress.Parse(text);
        if (address.Type.Length > 0)
        {
            return type.Length > 0 && type != address.Type
                ? Condition.Of("0")
                : Condition.Of("(target=? AND type=? AND base=?)", address.Id, address.Type, address.Base);
        }

        return type.Length > 0
            ? Condition.Of("(target=? AND type=? AND base='')", address.Id, type)
            : Condition.Of("(target=? AND base='')", address.Id);
    }
}
