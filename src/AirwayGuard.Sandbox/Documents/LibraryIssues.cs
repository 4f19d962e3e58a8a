using Hl7.Fhir.Utility;

namespace AirwayGuard.Sandbox.Documents;

/// <summary>
/// What the FHIR library finds wrong with a resource, in our words. The library's messages quote content and are never passed on;
/// its codes and paths are.
/// </summary>
internal static class LibraryIssues
{
    private const string Literal = "' is not a correct literal for a ";

    /// <param name="issue">The first thing found.</param>
    /// <param name="type">The resource's type, for a path that does not name it.</param>
    public static SandboxRefusalException Refusal(CodedException issue, string type)
    {
        var path = (issue as ExtendedCodedException)?.InstancePath is { Length: > 0 } known ? known.Replace("$this", type, StringComparison.Ordinal) : type;
        var (fault, code, text) = Words(issue);
        return new SandboxRefusalException(fault, 400, code, text, path) { LibraryCode = issue.ErrorCode };
    }

    private static (SandboxFault Fault, string IssueCode, string Text) Words(CodedException issue) => issue.ErrorCode switch
    {
        "PVAL105" => (SandboxFault.ElementMissing, "required", "A mandatory element is missing."),
        "PVAL102" or "PVAL103" => (SandboxFault.ElementCount, "structure", "An element does not stand as often as it must."),
        "PVAL116" => (SandboxFault.CodeUnknown, "code-invalid", "A code is not in the value set it is bound to."),
        "PVAL124" => Unreadable(issue.Message),
        "PVAL114" or "PVAL115" => (SandboxFault.ValueUnreadable, "invalid", "The narrative is not well-formed XHTML."),
        "PVAL119" or "PVAL120" or "PVAL125" or "PVAL126" => (SandboxFault.ValueUnreadable, "value", "A value is not one that its element's type takes."),
        "PVAL123" => (SandboxFault.ValueUnreadable, "value", "A value is not of its element's type: a number for a text, a text for a number or a truth value, or a number out of the type's range."),
        "PVAL128" => (SandboxFault.ElementUnknown, "structure", "An element is not known here."),
        "PVAL131" => (SandboxFault.ElementUnknown, "structure", "An element's name has a capital or small letter in the wrong place."),
        "PVAL130" or "PVAL132" or "JSON102" or "JSON103" => (SandboxFault.WrongType, "structure", "A resource does not name a resourceType of R4."),
        "PVAL129" or "JSON109" or "JSON120" or "JSON121" or "JSON125" or "PVAL104" => (SandboxFault.ElementEmpty, "structure", "An element, object or list holds nothing."),
        "JSON129" => (SandboxFault.ElementCount, "structure", "An element is given twice, or as a list where it may stand once."),
        "PVAL127" => (SandboxFault.ElementShape, "structure", "A single thing stands where a list belongs, or a list where a single thing does."),
        "JSON130" => (SandboxFault.ElementShape, "structure", "A list stands in a list."),
        "JSON131" => (SandboxFault.ElementShape, "structure", "A plain value stands where an object belongs."),
        "JSON132" => (SandboxFault.ElementShape, "structure", "An object stands where a plain value belongs."),
        "JSON114" or "PVAL101" => (SandboxFault.ElementShape, "structure", "An element of several types does not say its type in its name, or names one that is not allowed here."),
        "JSON133" or "JSON134" or "JSON135" => (SandboxFault.ElementShape, "structure", "A member whose name begins with an underscore is not as R4's JSON has it."),
        _ => (SandboxFault.RuleBroken, "invalid", "The resource breaks a rule of its definition."),
    };

    // The library's words are "string '<value>' is not a correct literal for a <type>. At <path> …".
    private static (SandboxFault Fault, string IssueCode, string Text) Unreadable(string message)
    {
        var at = message.LastIndexOf(Literal, StringComparison.Ordinal);
        var type = at < 0 ? "" : message[(at + Literal.Length)..].Split('.', 2)[0];
        if (type is not ("dateTime" or "instant" or "date" or "time"))
        {
            return (SandboxFault.ValueUnreadable, "value", "A value is not written as its element's type asks.");
        }

        var written = message[..at];
        var (day, clock) = written.IndexOf('T', StringComparison.Ordinal) is >= 0 and var t ? (t, written[(t + 1)..]) : (-1, "");
        var hasOffset = clock.EndsWith('Z') || clock.Contains('+', StringComparison.Ordinal) || clock.Contains('-', StringComparison.Ordinal);
        return (SandboxFault.TimeUnreadable, "value", type switch
        {
            "dateTime" or "instant" when day >= 0 && clock.Contains(':', StringComparison.Ordinal) && !hasOffset => "A time of day has no zone offset.",
            "instant" => "An instant is not a day, a time of day with seconds and a zone offset, or there is no such time.",
            "date" => "A date is not written as a year, month and day, or there is no such day.",
            "time" => "A time of day is not written with hours, minutes and seconds and no offset, or there is no such time.",
            _ => "A date or time is not written as FHIR writes it, or there is no such day or time.",
        });
    }
}
