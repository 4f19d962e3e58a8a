using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Reading;

/// <summary>Reads one charted value as the concept of its row asks. Never quotes what was charted.</summary>
internal static class ValueReader
{
    private const int LongestText = 512;

    /// <param name="rowCode">Key of the row's own code, kept with a number.</param>
    public static ReadValue Read(ObservationRow row, in ChartedValue charted, in RowMapping mapping, CodeMap map, int rowCode)
    {
        var concept = mapping.Concept;
        if (charted.IsAbsent)
        {
            return charted.Kind != ChartedKind.None ? Unreadable(concept, "A value and a reason for its absence stand side by side.")
                : charted.IsNotPerformed ? ReadValue.Of(FactValue.NotPerformed)
                : Missing(concept, "A reason stands in its place.");
        }

        if (charted.Kind == ChartedKind.None)
        {
            return concept == Concepts.SuctionPass ? ReadValue.Of(FactValue.Absent) : Missing(concept, "Nothing stands in its place.");
        }

        var info = Concepts.Info(concept);
        var read = info.Dimension switch
        {
            Dimension.YesNo => YesNo(row, charted, concept, info),
            Dimension.Code => Answer(row, charted, concept, info, map),
            Dimension.Date => Date(row, charted),
            _ => Number(row, charted, mapping, info, map, rowCode),
        };

        // What cannot be read must not look as if nothing had been charted, nor leave in force what was charted before.
        var isKept = read is { HasFact: false, Problem: not null }
            && (Holds(concept) || IsAnswerOfItsOwn(concept) || (IsUnreadable(read.Problem) && IsKeptUnreadable(concept)));
        return isKept ? read with { HasFact = true, Value = FactValue.Unreadable } : read;
    }

    /// <summary>A row of it makes a setting, whatever it says: so one that says nothing that can be used is judged as cannot-tell.</summary>
    public static bool MakesASetting(Concept concept) =>
        concept == Concepts.VacuumPressure || concept == Concepts.VacuumSet || concept == Concepts.RegulatorMode;

    private static bool IsUnreadable(DiagnosticCode problem) =>
        problem == Codes.ValueUnreadable || problem == Codes.ValuePlausibility || problem == Codes.AnswerUnmatched || problem == Codes.AnswersDiffer;

    private static bool IsKeptUnreadable(Concept concept) => MakesASetting(concept) || Holds(concept) || IsAnswerOfItsOwn(concept)
        || concept == Concepts.PassDuration || concept == Concepts.VentilatorDisconnected;

    // A row of it takes the place of the one before: the diameter in use, a circumstance, the age counted from.
    private static bool Holds(Concept concept) =>
        concept == Concepts.TubeInnerDiameter || concept == Concepts.InnerCannulaDiameter || concept == Concepts.InnerCannulaInPlace
        || concept == Concepts.IntracranialPressureMonitored || concept == Concepts.LungInjury || concept == Concepts.BleedingRisk
        || concept == Concepts.HyperoxygenationContraindicated || concept == Concepts.GestationalAgeAtBirth;

    // A check asks for it itself, and would take what cannot be read for none, or say that nothing is charted.
    private static bool IsAnswerOfItsOwn(Concept concept) => concept == Concepts.SuctionUse || concept == Concepts.CuffPressure || concept == Concepts.Preoxygenation
        || concept == Concepts.SuctionReaction || concept == Concepts.SalineInstilled || concept == Concepts.SecretionAppearance
        || concept == Concepts.SecretionAmount || concept == Concepts.SecretionConsistency || concept == Concepts.PassCount
        || concept == Concepts.InsertionDepth || concept == Concepts.DepthTechnique || concept == Concepts.SurfactantGiven;

    // A duration that is not there makes no pass of the row: whether there was one is what nobody knows.
    private static ReadValue Missing(Concept concept, string what)
    {
        var read = ReadValue.Trouble(Codes.ValueMissing, $"The value of {concept.Code} is missing. {what}");
        return MakesASetting(concept) || Holds(concept) || concept == Concepts.CuffPressure ? read with { HasFact = true, Value = FactValue.Unreadable } : read;
    }

    private static ReadValue Unreadable(Concept concept, string why)
    {
        var read = ReadValue.Trouble(Codes.ValueUnreadable, why);
        return IsKeptUnreadable(concept) ? read with { HasFact = true, Value = FactValue.Unreadable } : read;
    }

    private static ReadValue YesNo(ObservationRow row, in ChartedValue charted, Concept concept, ConceptInfo info) =>
        TryYesNo(row, charted, out var value, out var differ)
            ? differ ? AnswerCodings.Differ(concept) : ReadValue.Of(value)
            : ReadValue.Trouble(Codes.ValueUnreadable, $"The value of {info.Code} is neither yes nor no.");

    /// <param name="differ">Its text and codings, or these among themselves, say both.</param>
    private static bool TryYesNo(ObservationRow row, in ChartedValue charted, out FactValue value, out bool differ)
    {
        differ = false;
        value = charted.IsTrue ? FactValue.Yes : FactValue.No;
        if (charted.Kind == ChartedKind.Boolean)
        {
            return true;
        }

        if (charted.Kind is not (ChartedKind.String or ChartedKind.Concept))
        {
            return false;
        }

        var isFound = TryYesNo(row[charted.Text], out value);
        foreach (var coding in charted.Kind == ChartedKind.Concept ? row.In(charted.Answer) : [])
        {
            if (TryYesNo(row[coding.Code], out var coded))
            {
                differ |= isFound && coded != value;
                (value, isFound) = (coded, true);
            }
        }

        return isFound;
    }

    private static bool TryYesNo(ReadOnlySpan<byte> text, out FactValue value)
    {
        text = text.Trim(" \t\r\n"u8);
        value = FactValue.Yes;
        if (Ascii.EqualsIgnoreCase(text, "yes"u8) || Ascii.EqualsIgnoreCase(text, "true"u8))
        {
            return true;
        }

        value = FactValue.No;
        return Ascii.EqualsIgnoreCase(text, "no"u8) || Ascii.EqualsIgnoreCase(text, "false"u8);
    }

    private static ReadValue Answer(ObservationRow row, in ChartedValue charted, Concept concept, ConceptInfo info, CodeMap map)
    {
        if (charted.Kind is not (ChartedKind.String or ChartedKind.Concept))
        {
            return ReadValue.Trouble(Codes.ValueUnreadable, $"The value of {info.Code} is no answer.");
        }

        Span<int> answers = stackalloc int[info.Answers.Count];
        var count = 0;
        foreach (var coding in charted.Kind == ChartedKind.Concept ? row.In(charted.Answer) : [])
        {
            if (!coding.Code.IsEmpty && map.TryAnswer(concept, row.Text(coding.System), row.Text(coding.Code), out var coded)
                && !answers[..count].Contains(coded))
            {
                answers[count++] = coded;
            }
        }

        if (count > 0)
        {
            return count == 1 ? ReadValue.Of(FactValue.Code(answers[0])) : AnswerCodings.Several(concept, answers[..count]);
        }

        var marks = charted.Kind == ChartedKind.String ? FactMarks.FromText : FactMarks.None;
        Span<char> buffer = stackalloc char[LongestText];
        var text = Characters(row[charted.Text], buffer, out var isCut);
        if (!isCut && map.TryAnswerText(concept, text, out var listed))
        {
            return ReadValue.Of(FactValue.Code(listed), marks);
        }

        if (info.FreeText)
        {
            var says = SaysSomething(text, isCut);
            foreach (var coding in charted.Kind == ChartedKind.Concept ? row.In(charted.Answer) : [])
            {
                says = says || SaysSomething(Characters(row[coding.Display], buffer, out var isDisplayCut), isDisplayCut);
            }

            if (says)
            {
                return ReadValue.Of(FactValue.Text, FactMarks.FromText);
            }
        }

        return ReadValue.Trouble(Codes.AnswerUnmatched, info.FreeText
            ? $"What was charted as {info.Code} gives no reason."
            : $"The answer charted for {info.Code} is not one of its answers.");
    }

    private static bool SaysSomething(ReadOnlySpan<char> text, bool isCut) => isCut || !RoutineWords.SayNothingElse(text);

    private static ReadValue Date(ObservationRow row, in ChartedValue charted)
    {
        var text = row[charted.Text];
        if (charted.Kind == ChartedKind.DateTime
            && (text.Length <= 10 || FhirTime.Read(text, out _, out _) != TimeForm.Unreadable)
            && FhirDate.TryRead(text[..Math.Min(text.Length, 10)], out var year, out var month, out var day, out var precision))
        {
            return ReadValue.Of(FactValue.Date(year, month, day, precision));
        }

        return ReadValue.Trouble(Codes.ValueUnreadable, "The value is no date.");
    }

    private static ReadValue Number(ObservationRow row, in ChartedValue charted, in RowMapping mapping, ConceptInfo info, CodeMap map, int rowCode)
    {
        if (info.AlsoYesNo && TryYesNo(row, charted, out var mark, out var isBoth))
        {
            return isBoth ? AnswerCodings.Differ(mapping.Concept) : ReadValue.Of(mark);
        }

        switch (charted.Kind)
        {
            case ChartedKind.Quantity when charted.HasNumber && TryComparator(row[charted.Comparator], out var comparator):
                var unitCharted = UnitOf(row, charted, map, out var differ);
                return differ
                    ? NumberRules.ApplyUnitsDiffer(charted.Number, comparator, mapping, info, rowCode)
                    : NumberRules.Apply(charted.Number, unitCharted, comparator, mapping, info, FactMarks.None, rowCode);
            case ChartedKind.Integer:
                return NumberRules.Apply(charted.Number, Unit.None, Comparator.Exactly, mapping, info, FactMarks.None, rowCode);
            case ChartedKind.String or ChartedKind.Concept:
                Span<char> buffer = stackalloc char[NumberText.Longest];
                var text = Characters(row[charted.Text], buffer, out var isCut);
                if (mapping.Concept == Concepts.GestationalAgeAtBirth && GestationText.TryDays(text, out var days))
                {
                    return NumberRules.Apply(days, Unit.Day, Comparator.Exactly, mapping, info, FactMarks.FromText, rowCode);
                }

                if (!isCut && NumberText.TryRead(text, info.Dimension == Dimension.Catheter, map, out var number, out var unit, out var words))
                {
                    return NumberRules.Apply(number, unit, words, mapping, info, FactMarks.FromText, rowCode);
                }

                break;
        }

        return ReadValue.Trouble(Codes.ValueUnreadable, $"The value of {info.Code} is not one number with its unit.");
    }

    /// <param name="differ">Text and code are known units that mean different things: which one was meant is anybody's guess.</param>
    private static Unit UnitOf(ObservationRow row, in ChartedValue charted, CodeMap map, out bool differ)
    {
        differ = false;
        var text = charted.UnitText.IsEmpty ? Unit.None : map.UnitOf(row.Text(charted.UnitText));
        var isUcum = !charted.UnitSystem.IsEmpty && map.Canonical(row.Text(charted.UnitSystem)) == CodeSystems.Ucum;
        if (charted.UnitCode.IsEmpty || !(isUcum || charted.UnitSystem.IsEmpty || charted.UnitText.IsEmpty))
        {
            return text;
        }

        // Feeds name UCUM and send mmHg: a text that is known is taken for its code.
        var code = row.Text(charted.UnitCode);
        var unit = isUcum ? Units.FromUcum(code) : Unit.Unknown;
        unit = unit == Unit.Unknown ? map.UnitOf(code) : unit;
        differ = Units.Differ(text, unit);
        return isUcum || charted.UnitText.IsEmpty ? unit : text;
    }

    private static bool TryComparator(ReadOnlySpan<byte> code, out Comparator comparator)
    {
        comparator = Comparator.Exactly;
        if (code.IsEmpty)
        {
            return true;
        }

        comparator = code.SequenceEqual("<"u8) ? Comparator.Below
            : code.SequenceEqual("<="u8) ? Comparator.AtMost
            : code.SequenceEqual(">="u8) ? Comparator.AtLeast
            : code.SequenceEqual(">"u8) ? Comparator.Above
            : Comparator.Exactly;
        return comparator != Comparator.Exactly;
    }

    private static ReadOnlySpan<char> Characters(ReadOnlySpan<byte> utf8, Span<char> buffer, out bool isCut)
    {
        isCut = !Encoding.UTF8.TryGetChars(utf8, buffer, out var length);
        return isCut ? default : buffer[..length].Trim();
    }
}
