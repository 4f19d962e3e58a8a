using System.Runtime.InteropServices;
using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Suctioning;

/// <summary>What is on the table while passes are put together. Kept from patient to patient, so that a row costs no memory of its own.</summary>
internal sealed class PassWork
{
    public List<PassDraft> Drafts { get; } = [];

    /// <summary>For each row that joined one, the index of its draft.</summary>
    public Dictionary<Entity, int> PassOfRow { get; } = [];

    /// <summary>What rows say of themselves that was suctioned, as <see cref="SuctionUse"/> gives it.</summary>
    public Dictionary<Entity, int> Uses { get; } = [];

    /// <summary>Rows of more than a setting that say that they served another suction than the airway's.</summary>
    public HashSet<Entity> Others { get; } = [];

    /// <summary>Rows of more than a setting of which nobody can tell what they say was suctioned.</summary>
    public HashSet<Entity> Unclear { get; } = [];

    /// <summary>Rows that joined a pass by nothing but their time.</summary>
    public HashSet<Entity> ByTime { get; } = [];

    /// <summary>The panel each row is a member of.</summary>
    public Dictionary<Entity, Entity> Panels { get; } = [];

    /// <summary>Procedures of suctioning.</summary>
    public HashSet<Entity> Acts { get; } = [];

    /// <summary>Procedures of another suction than the airway's of which a row is part.</summary>
    public HashSet<Entity> OtherActs { get; } = [];

    /// <summary>For each Procedure that is part of another, which.</summary>
    public Dictionary<Entity, Entity> Parents { get; } = [];

    /// <summary>Procedures of which others are part.</summary>
    public HashSet<Entity> Wholes { get; } = [];

    /// <summary>Grouping keys of rows that joined, with the draft they joined.</summary>
    public Dictionary<Entity, int> Keys { get; } = [];

    /// <summary>The regulator each act used.</summary>
    public Dictionary<Entity, Entity> Regulators { get; } = [];

    /// <summary>Rows that only a pass can give and that joined none.</summary>
    public List<(long From, Entity Row, int Fact)> Makers { get; } = [];

    public ColumnIndex Columns { get; } = new();

    /// <summary>Facts of the loose pass being gathered, and the same as a set.</summary>
    public List<int> Gathered { get; } = [];

    public HashSet<int> Taken { get; } = [];

    public List<int> Beside { get; } = [];

    /// <summary>The drafts in order of start, and the place of each in that order.</summary>
    public List<int> Order { get; } = [];

    public List<int> Places { get; } = [];

    /// <summary>By pass in order of start: where its members begin, where the next of them goes, and the member that names it.</summary>
    public List<int> Begins { get; } = [];

    public List<int> Next { get; } = [];

    public List<int> Named { get; } = [];

    public void Clear()
    {
        Drafts.Clear();
        PassOfRow.Clear();
        Uses.Clear();
        Others.Clear();
        Unclear.Clear();
        ByTime.Clear();
        Panels.Clear();
        Acts.Clear();
        OtherActs.Clear();
        Parents.Clear();
        Wholes.Clear();
        Keys.Clear();
        Regulators.Clear();
        Makers.Clear();
    }

    /// <summary>A list made this long, each place holding the value.</summary>
    public static Span<int> Filled(List<int> list, int count, int value)
    {
        CollectionsMarshal.SetCount(list, count);
        var places = CollectionsMarshal.AsSpan(list);
        places.Fill(value);
        return places;
    }
}
