using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Overrides;

/// <summary>The reason that came with a report, as it may stand where patient data may not.</summary>
/// <param name="Short">The code of our list, <see cref="OverrideReasons.Other"/>, or <see cref="None"/>.</param>
/// <param name="Full">Likewise, yet <c>system|code</c> of another list's coding that has the form of one.</param>
public sealed record GivenReason(string Short, string Full)
{
    public const string None = "none given";

    private const int LongestCode = 64, LongestSystem = 255;

    public static GivenReason Of(CardFeedback report)
    {
        var code = OverrideReasons.CodeOf(report);
        return code.Length == 0 ? new GivenReason(None, None)
            : report.ReasonSystem != OverrideReasons.System && HasFormOfCoding(report) ? new GivenReason(code, $"{report.ReasonSystem}|{report.ReasonCode}")
            : new GivenReason(code, code);
    }

    // A sender may put a person's own words where a code belongs.
    private static bool HasFormOfCoding(CardFeedback report) =>
        report.ReasonCode.Length <= LongestCode && report.ReasonCode.All(static sign => char.IsAsciiLetterOrDigit(sign) || sign is '.' or '_' or '-')
        && (report.ReasonSystem.Length == 0 || IsAddress(report.ReasonSystem));

    private static bool IsAddress(string system) =>
        system.Length <= LongestSystem && system.All(static sign => sign is > ' ' and <= '~') && Uri.TryCreate(system, UriKind.Absolute, out var address) && system.StartsWith(address.Scheme + ":", StringComparison.OrdinalIgnoreCase);
}
