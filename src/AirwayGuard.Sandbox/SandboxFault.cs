namespace AirwayGuard.Sandbox;

/// <summary>
/// What was wrong with a request, in kinds that do not change. Whoever runs the sandbox may give each a code and an advice
/// (<see cref="SandboxOptions.WordsOf"/>).
/// </summary>
public enum SandboxFault
{
    /// <summary>The body is missing, not UTF-8, or not one JSON object.</summary>
    NotJson,

    /// <summary>The body or an entry has too many bytes.</summary>
    TooLarge,

    /// <summary>The resource type is none of R4's, or not the one the address names.</summary>
    WrongType,

    /// <summary>The id is none of R4's form, or not the one that the address or the match has.</summary>
    WrongId,

    /// <summary>A mandatory element is missing.</summary>
    ElementMissing,

    /// <summary>An element is none of its parent's.</summary>
    ElementUnknown,

    /// <summary>An element, object or list holds nothing.</summary>
    ElementEmpty,

    /// <summary>An element stands more often, or less often, than R4 lets it.</summary>
    ElementCount,

    /// <summary>An element is an object, list, text or number where R4 gives it another shape.</summary>
    ElementShape,

    /// <summary>A code is not in the value set it is bound to.</summary>
    CodeUnknown,

    /// <summary>A date or time is not written as FHIR writes it, or names a day or time that there is not.</summary>
    TimeUnreadable,

    /// <summary>A value is of another form than its element's type.</summary>
    ValueUnreadable,

    /// <summary>Any other rule of the base definition is broken.</summary>
    RuleBroken,

    /// <summary>A condition of the request is not written as RFC 9110 writes it.</summary>
    ConditionUnreadable,

    /// <summary>The resource does not stand as a condition of the request asks.</summary>
    ConditionNotMet,

    /// <summary>Criteria select several resources where one is meant, or nothing in particular.</summary>
    CriteriaNotUnique,

    /// <summary>There is nothing at the address.</summary>
    NotThere,

    /// <summary>The resource was deleted.</summary>
    Deleted,

    /// <summary>The method is not served at the address.</summary>
    MethodNotServed,

    /// <summary>The body's content type or coding is not taken.</summary>
    ContentTypeRefused,

    /// <summary>No format is served that the client accepts.</summary>
    FormatNotServed,

    /// <summary>The Host header names another server.</summary>
    HostForeign,

    /// <summary>The request comes from a page of another origin.</summary>
    OriginForeign,

    /// <summary>A search or history parameter, or its modifier, is not known.</summary>
    ParameterUnknown,

    /// <summary>The value of a search or history parameter could not be read.</summary>
    ParameterUnreadable,

    /// <summary>A search asks for more than is answered at once.</summary>
    SearchTooCostly,

    /// <summary>The pages of a search are kept no longer.</summary>
    PagesGone,

    /// <summary>A Bundle, or an entry of one, is not laid out so that it can be carried out.</summary>
    BundleUnusable,

    /// <summary>A reference of a transaction leads nowhere.</summary>
    ReferenceUnresolved,

    /// <summary>A Subscription cannot be served.</summary>
    SubscriptionUnservable,

    /// <summary>The database did not do its part.</summary>
    StoreFailed,
}
