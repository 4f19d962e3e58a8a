using System.Runtime.CompilerServices;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Measures;

/// <summary>How a value bears on a standing finding of its line.</summary>
public enum ClearingStrength : byte
{
    /// <summary>Never ends one.</summary>
    Never,

    /// <summary>Ends one whose breaches were all of this weak kind (a reading without a method).</summary>
    Weak,

    /// <summary>Ends one.</summary>
    Full,
}

/// <summary>Indexes into the timeline's facts.</summary>
[InlineArray(8)]
public struct EvidenceSlots
{
    private int _first;
}

/// <summary>What a measure found: a value, or what is missing, or nothing (it does not apply), with the facts it rests on.</summary>
public struct Measured
{
    /// <summary>Value = amount ÷ divisor, so that a ratio compares exactly. In <see cref="Unit"/>.</summary>
    public decimal Amount { get; set; }

    public decimal Divisor { get; set; }

    public Unit Unit { get; set; }

    public Comparator Comparator { get; set; }

    /// <summary>The code of a coded value (<c>yes</c> and <c>no</c> for marks), or null.</summary>
    public string? Code { get; set; }

    /// <summary>Beside its code the amount is shown, as charted.</summary>
    public bool ShowsAmount { get; set; }

    /// <summary>True once a value was set.</summary>
    public bool HasValue { get; set; }

    public Missing Missing { get; set; }

    /// <summary>The thing measured was charted as not done: its absence need not be waited for.</summary>
    public bool Omitted { get; set; }

    /// <summary>A vacuum without a unit: it breaches only where it would in every unit in which it is possible, and is else open.</summary>
    public bool UnitIsMissing { get; set; }

    /// <summary>An upper value that is allowed: judged as the number it is; that "less than" leaves the number out counts only against a limit of that number.</summary>
    public bool AllowsUpTo { get; set; }

    /// <summary>Within the limit the answer would still be open: the reading was taken flowing, or nobody says how.</summary>
    public Missing WithinIs { get; set; }

    /// <summary>How far charting reaches, in the value's unit: where that is over the limit, <see cref="WithinIs"/> is answered. Null where it does not matter.</summary>
    public decimal? Reaches { get; set; }

    /// <summary>Over the limit the answer would still be open: nobody says that what is measured took place.</summary>
    public Missing BreachIs { get; set; }

    /// <summary>
    /// Over the limit undivided, but not once divided, the answer is open: one duration beside several passes. Where it is set,
    /// <see cref="Could"/> takes the place of the undivided value.
    /// </summary>
    public Missing OverIs { get; set; }

    /// <summary>What the value would be if what nobody can tell counted too, in <see cref="Unit"/>; null where nothing is open.</summary>
    public decimal? Could { get; set; }

    /// <summary>What would settle the value where its comparator leaves the answer open; nothing: an exact value would.</summary>
    public Missing OpenIs { get; set; }

    /// <summary>A breach by this value can be ended by a weak value too: a reading without a method.</summary>
    public bool BreachIsWeak { get; set; }

    /// <summary>Within the limit no verdict is given (full line beside a number).</summary>
    public bool WithinIsNotJudged { get; set; }

    /// <summary>A breach is withheld by the rule's withholding check: that one breaches for the same subject, or the measure says so.</summary>
    public bool Withheld { get; set; }

    /// <summary>The same value before the subject, in <see cref="Unit"/>: where it was over the limit already, the subject did not bring it there.</summary>
    public decimal? Before { get; set; }

    public ClearingStrength Clearing { get; set; }

    /// <summary>When a later fact ended what breaches here, UTC ticks; 0 for never.</summary>
    public long EndedAt { get; set; }

    /// <summary>Index in the timeline of the fact that ended it; −1 for none.</summary>
    public int EndedBy { get; set; }

    /// <summary>Index in the timeline of the fact whose charted words are shown; −1 for none.</summary>
    public int Charted { get; set; }

    private EvidenceSlots _facts;

    /// <summary>How many facts were compared, at most 8.</summary>
    public byte Count { get; private set; }

    /// <summary>More evidence than fits; the subject's own rows are known besides.</summary>
    public bool More { get; set; }

    /// <summary>Index of the fact that made a circumstance hold; −1 for none. It was not compared with the limit, yet the finding rests on it.</summary>
    public int Circumstance { get; set; }

    public static Measured Start() => new() { Divisor = 1m, Charted = -1, Circumstance = -1, EndedBy = -1 };

    public decimal Value => Amount / Divisor;

    /// <summary>Notes that a fact's value was compared.</summary>
    public void Uses(int factIndex)
    {
        for (var i = 0; i < Count; i++)
        {
            if (_facts[i] == factIndex)
            {
                return;
            }
        }

        if (Count < 8)
        {
            _facts[Count++] = factIndex;
        }
        else
        {
            More = true;
        }
    }

    /// <summary>Index in the timeline of the i-th fact compared.</summary>
    public readonly int FactAt(int i) => _facts[i];

    public void Set(decimal amount, Unit unit, decimal divisor = 1m)
    {
        Amount = amount;
        Unit = unit;
        Divisor = divisor;
        HasValue = true;
    }

    public void Set(string code)
    {
        Code = code;
        HasValue = true;
    }

    /// <summary>Says the kind only: a value is patient data.</summary>
    public override readonly string ToString() => HasValue ? "Measured(value)" : $"Measured({Missing})";
}
