namespace AirwayGuard.Fhir.Reading;

/// <summary>One value as charted with the codes that say what it is: a row's own, one of its components, a device's property.</summary>
internal struct ChartedValue
{
    /// <summary>0 for the resource's own value, from 1 for components, properties and parameters in their order.</summary>
    public ushort Ordinal;

    /// <summary>Codings of the code that says what the value is.</summary>
    public Stretch Code;
    public ChartedKind Kind;

    /// <summary>A value stands there that has no number where its form needs one.</summary>
    public bool HasNumber;
    public decimal Number;
    public Slice Comparator, UnitText, UnitSystem, UnitCode;

    /// <summary>A string, a date and time, or the text of a coded value.</summary>
    public Slice Text;

    /// <summary>Codings of a coded value.</summary>
    public Stretch Answer;
    public bool IsTrue;

    /// <summary>Some dataAbsentReason stands there.</summary>
    public bool IsAbsent;

    /// <summary>The reason is not-performed.</summary>
    public bool IsNotPerformed;

    /// <summary>A modifier extension on this part, whose meaning is not known.</summary>
    public bool HasModifier;
}

/// <summary>Codings next to each other in the row's list.</summary>
internal readonly record struct Stretch(int From, int Count);

internal readonly record struct ChartedCoding(Slice System, Slice Code, Slice Display);
