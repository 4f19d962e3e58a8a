using System.Collections.Immutable;

namespace AirwayGuard.TestKit.EngineMutants;

/// <summary>Mutants of what an order allows, forbids and asks for.</summary>
internal static class OrderMutants
{
    public static ImmutableArray<EngineMutant> All { get; } =
    [
        new("weaker-ordered-vacuum", "Measures/OrderedVacuum.cs",
            "> VacuumPressure.Depth(timeline.Facts[one].Value) ? other : one;",
            "< VacuumPressure.Depth(timeline.Facts[one].Value) ? other : one;",
            "Of two ordered vacuums the weaker one is judged."),
        new("forbidding-order-judged", "Measures/OrderedVacuum.cs",
            "if (forbids == ValueKind.Yes)",
            "if (forbids == ValueKind.NotPerformed)",
            "An order that forbids suction is told as allowing too much vacuum."),
        new("ordered-intermittent-unseen", "Measures/OrderedMode.cs",
            "fact.Value.Symbol == Answers.FullLine || fact.Value.Symbol == Answers.Intermittent",
            "fact.Value.Symbol == Answers.FullLine",
            "An order for intermittent suction at an airway is not told."),
        new("as-needed-hides-clock", "Measures/OrderTiming.cs",
            "(byClock < 0 || fact.Value.Kind == ValueKind.Yes)",
            "(byClock < 0 || fact.Value.Kind == ValueKind.No)",
            "As needed hides that suction is also ordered by the clock."),
        new("millimetres-as-french", "Suctioning/OrderContradiction.cs",
            "value.Unit == Unit.Millimetre ? 3m * value.Magnitude :",
            "value.Unit == Unit.Millimetre ? value.Magnitude :",
            "One catheter given in both sizes is told as two."),
        new("suction-meant-is-read", "Measures/OrderReading.cs",
            "isAnyRead |= IsUsed(fact.Concept) && fact.Concept != Concepts.SuctionUse;",
            "isAnyRead |= IsUsed(fact.Concept);",
            "An order that says nothing beyond that the airway is suctioned counts as read."),
        new("unread-forbidding-passes", "Measures/SuctionAgainstOrder.cs",
            "fact.Value.Kind is ValueKind.Yes or ValueKind.Unreadable && fact",
            "fact.Value.Kind is ValueKind.Yes && fact",
            "An order that may forbid suction is passed over."),
        new("draft-renews", "Measures/TubeSinceCatheterChosen.cs",
            """

                                && statuses[i].Value.Symbol != Answers.Draft)
            """,
            ")",
            "A draft that nobody signed counts as a new choice of catheter."),
    ];
}
