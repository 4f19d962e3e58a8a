using System.Globalization;
using AirwayGuard.Core.Judging;
using AirwayGuard.Worker.Judging;

namespace AirwayGuard.Host.Service;

/// <summary>Whether what is found leaves the service, in words.</summary>
internal static class VoiceWords
{
    public static string Of(ServiceBasis basis)
    {
        if (!basis.Speaks)
        {
            return basis.Live ? "silent: findings are recorded here only, nothing is written to the server until a named person promotes the rules" : "silent: findings are recorded here only, nothing is written to the server";
        }

        var all = basis.Rules.Rules.Count(static rule => rule.Mode == Mode.Live);
        var speaking = basis.SignedOff.At(basis.Rules, []).Rules.Count(static rule => rule.Mode == Mode.Live);
        var byPlace = basis.SignedOff.GoesByUnit;
        return speaking == all && !byPlace ? "live: findings are written to the server"
            : string.Create(CultureInfo.InvariantCulture, $"live in part: {speaking} of {all} checks are written to the server everywhere{(byPlace ? "; in single units it is as signed off for them (rules signed)" : "")}");
    }
}
