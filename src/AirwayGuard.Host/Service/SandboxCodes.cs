using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Sandbox;

namespace AirwayGuard.Host.Service;

/// <summary>Our codes for what the demo's FHIR server refuses, since the sandbox knows none of them.</summary>
internal static class SandboxCodes
{
    public static SandboxWords Of(SandboxFault fault)
    {
        var code = CodeOf(fault);
        return new SandboxWords(code.Id, code.Title, code.Advice);
    }

    private static DiagnosticCode CodeOf(SandboxFault fault) => fault switch
    {
        SandboxFault.NotJson => Codes.DemoNotJson,
        SandboxFault.TooLarge => Codes.DemoTooLarge,
        SandboxFault.WrongType => Codes.DemoWrongType,
        SandboxFault.WrongId => Codes.DemoWrongId,
        SandboxFault.ElementMissing => Codes.DemoElementMissing,
        SandboxFault.ElementUnknown => Codes.DemoElementUnknown,
        SandboxFault.ElementEmpty => Codes.DemoElementEmpty,
        SandboxFault.ElementCount => Codes.DemoElementCount,
        SandboxFault.ElementShape => Codes.DemoElementShape,
        SandboxFault.CodeUnknown => Codes.DemoCodeUnknown,
        SandboxFault.TimeUnreadable => Codes.DemoTimeUnreadable,
        SandboxFault.ValueUnreadable => Codes.DemoValueUnreadable,
        SandboxFault.BundleUnusable => Codes.DemoBundleUnusable,
        SandboxFault.ReferenceUnresolved => Codes.DemoReferenceUnresolved,
        SandboxFault.SubscriptionUnservable => Codes.DemoSubscriptionUnservable,
        SandboxFault.ConditionUnreadable => Codes.DemoConditionUnreadable,
        SandboxFault.ConditionNotMet => Codes.DemoConditionNotMet,
        SandboxFault.CriteriaNotUnique => Codes.DemoCriteriaNotUnique,
        SandboxFault.NotThere => Codes.DemoNotThere,
        SandboxFault.Deleted => Codes.DemoDeleted,
        SandboxFault.MethodNotServed => Codes.DemoMethodNotServed,
        SandboxFault.ContentTypeRefused => Codes.DemoContentTypeRefused,
        SandboxFault.FormatNotServed => Codes.DemoFormatNotServed,
        SandboxFault.HostForeign => Codes.DemoHostForeign,
        SandboxFault.OriginForeign => Codes.DemoOriginForeign,
        SandboxFault.ParameterUnknown => Codes.DemoParameterUnknown,
        SandboxFault.ParameterUnreadable => Codes.DemoParameterUnreadable,
        SandboxFault.SearchTooCostly => Codes.DemoSearchTooCostly,
        SandboxFault.PagesGone => Codes.DemoPagesGone,
        SandboxFault.StoreFailed => Codes.DemoStoreFailed,
        _ => Codes.DemoRuleBroken,
    };
}
