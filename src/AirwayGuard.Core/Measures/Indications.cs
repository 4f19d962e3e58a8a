using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Why a pass was made: a coded indication or a text that says more than that suction was due. What is charted with one pass of a
/// session holds for its other passes.
/// </summary>
internal static class Indications
{
    /// <param name="fact">Index of the fact that gives the indication, or that says none was charted on purpose; −1 for neither.</param>
    public static bool Has(in Timeline timeline, Care care, in PassSpan pass, out int fact)
    {
        if (Own(timeline, care, pass, out fact))
        {
            return true;
        }

        var none = fact;
        ref readonly var session = ref care.Sessions[pass.Session];
        foreach (var other in care.PassesOf(session))
        {
            if (none < 0 && Own(timeline, care, care.Passes[other], out fact))
            {
                return true;
            }
        }

        fact = none;
        return false;
    }

    private static bool Own(in Timeline timeline, Care care, in PassSpan pass, out int fact)
    {
        fact = -1;
        foreach (var index in care.MembersOf(pass))
        {
            ref readonly var candidate = ref timeline.Facts[index];
            if (candidate.Concept != Concepts.SuctionIndication)
            {
                continue;
            }

            fact = index;
            if (candidate.Value.Kind is ValueKind.Code or ValueKind.Text)
            {
                return true;
            }
        }

        return false;
    }
}
