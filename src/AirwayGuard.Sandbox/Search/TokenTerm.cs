using AirwayGuard.Sandbox.Storage;

namespace AirwayGuard.Sandbox.Search;

/// <summary>Token values: <c>code</c>, <c>system|code</c>, <c>|code</c>, <c>system|</c> (R4 search.html#token).</summary>
internal static class TokenTerm
{
    public static Condition Read(string value)
    {
        var parts = SearchText.Split(value, '|');
        if (parts.Count == 1)
        {
            return Condition.Of("code=?", SearchText.Unescape(parts[0]));
        }

        if (parts.Count > 2)
        {
            throw new SandboxRefusalException(SandboxFault.ParameterUnreadable, 400, "value", "A token has more than one unescaped bar.");
        }

        var (system, code) = (SearchText.Unescape(parts[0]), SearchText.Unescape(parts[1]));
        return (system.Length, code.Length) switch
        {
            (_, 0) => Condition.Of("system=?", system),
            (0, _) => Condition.Of("(code=? AND system='')", code),
            // An element of type code has the system of its binding, which the JSON does not carry.
            _ => Condition.Of("(code=? AND system IN (?,?))", code, system, TokenEntry.Implicit),
        };
    }
}
