using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Fhir.Reading;

/// <summary>What becomes of one answer whose codings stand for several. The order of the codings decides nothing.</summary>
internal static class AnswerCodings
{
    // Of a resource with more parts only the first of several answers is kept: no part reaches into the numbers of the others.
    private const int Step = 1024;

    /// <summary>What came up may be white and streaked with blood, and a patient may react in two ways: one answer may say both.</summary>
    public static bool MayBeSeveral(Concept concept) => concept == Concepts.SecretionAppearance || concept == Concepts.SuctionReaction
        || concept == Concepts.SuctionIndication || concept == Concepts.AllowanceReason;

    /// <param name="answers">Two or more different answers of the concept; put in order.</param>
    public static ReadValue Several(Concept concept, Span<int> answers)
    {
        // The concepts list harmless answers first.
        var listed = Concepts.Info(concept).Answers;
        answers.Sort((one, other) => Place(listed, other).CompareTo(Place(listed, one)));
        if (concept == Concepts.VacuumReadingMethod)
        {
            return Differ(concept) with { HasFact = true, Value = FactValue.Code(Answers.MethodUnknown) };
        }

        if (!MayBeSeveral(concept))
        {
            return Differ(concept);
        }

        var first = FactValue.Code(answers[0]);
        var further = new List<FactValue>();
        foreach (var answer in answers[1..])
        {
            if (answer != Answers.None)
            {
                further.Add(FactValue.Code(answer));
            }
        }

        // No reaction beside a reaction: that there was one must not be lost.
        var read = answers.Contains(Answers.None) ? Differ(concept) with { HasFact = true, Value = first } : ReadValue.Of(first);
        return read with { Further = further.Count > 0 ? further : null };
    }

    /// <summary>The codings of one answer contradict each other. What they say is not told, since it is a patient's.</summary>
    public static ReadValue Differ(Concept concept) =>
        ReadValue.Trouble(Codes.AnswersDiffer, $"The codings of the answer to {concept.Code} stand for different answers.");

    /// <summary>Number under which the n-th further answer of a part is kept, from 1: each fact of a resource and concept has its own.</summary>
    /// <param name="parts">How many parts the resource has.</param>
    /// <returns>False where there are too many parts, or answers, to number them.</returns>
    public static bool TryOrdinal(ushort part, int further, int parts, out ushort ordinal)
    {
        var number = (further * Step) + part;
        var isFree = parts < Step && number <= ushort.MaxValue;
        ordinal = isFree ? (ushort)number : part;
        return isFree;
    }

    /// <summary>The part of a resource that a fact was read from.</summary>
    /// <param name="parts">How many parts the resource has.</param>
    public static int PartOf(int ordinal, int parts) => parts < Step ? ordinal % Step : ordinal;

    private static int Place(IReadOnlyList<string> listed, int answer)
    {
        var code = Answers.Code(answer);
        for (var i = 0; i < listed.Count; i++)
        {
            if (listed[i] == code)
            {
                return i;
            }
        }

        return -1;
    }
}
