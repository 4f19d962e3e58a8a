namespace AirwayGuard.TestKit.Histories;

/// <summary>What a row holds, in the shape it is charted in.</summary>
public abstract record Charted
{
    private Charted()
    {
    }

    /// <summary>No value: the row itself says something (a suction pass).</summary>
    public sealed record Nothing : Charted;

    /// <summary>dataAbsentReason not-performed.</summary>
    public sealed record NotPerformed : Charted;

    /// <summary>A number as written.</summary>
    /// <param name="Unit">UCUM code, printed text or none, as <paramref name="Form"/> says.</param>
    /// <param name="Comparator">FHIR's <c>&lt; &lt;= &gt;= &gt;</c>, or none.</param>
    public sealed record Number(decimal Amount, string? Unit, NumberForm Form = NumberForm.Ucum, string? Comparator = null) : Charted;

    /// <summary>A whole string as written (valueString).</summary>
    public sealed record Words(string Text) : Charted;

    /// <summary>A coded answer.</summary>
    public sealed record Answer(string Code, AnswerForm Form = AnswerForm.Coding) : Charted;

    public sealed record YesNo(bool Value) : Charted;

    /// <summary>A date and time, with its offset.</summary>
    public sealed record Moment(DateTimeOffset Time) : Charted;
}

/// <summary>How a number is sent: with a UCUM unit, with a unit text only, or as a string.</summary>
public enum NumberForm
{
    Ucum,
    TextUnit,
    Text,
}

/// <summary>How an answer is sent: as a code, as the text of a concept, or as a string.</summary>
public enum AnswerForm
{
    Coding,
    ConceptText,
    Text,
}
