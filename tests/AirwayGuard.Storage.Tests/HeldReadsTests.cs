using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Reading;
using Xunit;

namespace AirwayGuard.Storage.Tests;

/// <summary>What was read is held until a commit touches what it rests on, and never longer.</summary>
public sealed class HeldReadsTests
{
    private static readonly Entity One = new(EntityKind.Patient, 1), Two = new(EntityKind.Patient, 2), Bed = new(EntityKind.Place, 1);

    private readonly HeldReads _held = new(10);

    [Fact]
    public void What_is_held_is_given_again_also_that_there_is_nothing()
    {
        _held.Hold(KeyOf(One), "one", [One, Bed], 1, _held.Changes);
        _held.Hold(KeyOf(Two), null, [Two], 1, _held.Changes);

        Assert.Equal((true, "one"), Of(One));
        Assert.Equal((true, null), Of(Two));
        Assert.Equal((false, null), Of(Bed));
    }

    [Fact]
    public void A_commit_lets_go_of_what_rests_on_an_entity_that_it_touches_and_of_nothing_else()
    {
        _held.Hold(KeyOf(One), "one", [One, Bed], 1, _held.Changes);
        _held.Hold(KeyOf(Two), "two", [Two], 1, _held.Changes);

        _held.Change([Bed]);

        Assert.Equal((false, null), Of(One));
        Assert.Equal((true, "two"), Of(Two));
        _held.Change([Bed, One, Two]);
        Assert.Equal((false, null), Of(Two));
    }

    [Fact]
    public void What_was_read_while_anything_changed_is_not_held()
    {
        var before = _held.Changes;
        _held.Change([Two]);

        _held.Hold(KeyOf(One), "one", [One], 1, before);

        Assert.Equal((false, null), Of(One));
        _held.Change([]);
        _held.Hold(KeyOf(One), "one", [One], 1, _held.Changes);
        Assert.Equal((true, "one"), Of(One));
    }

    [Fact]
    public void The_oldest_goes_where_all_together_weighs_too_much_and_what_is_too_heavy_is_never_held()
    {
        _held.Hold(KeyOf(One), "one", [One], 6, _held.Changes);
        _held.Hold(KeyOf(Two), "two", [Two], 4, _held.Changes);
        Assert.Equal((true, "one"), Of(One));

        _held.Hold(KeyOf(Bed), "bed", [Bed], 1, _held.Changes);

        Assert.Equal((false, null), Of(One));
        Assert.Equal((true, "two"), Of(Two));
        _held.Hold(KeyOf(One), "one", [One], 11, _held.Changes);
        Assert.Equal((false, null), Of(One));
        Assert.Equal((true, "bed"), Of(Bed));
    }

    [Fact]
    public void Where_nobody_can_tell_what_changed_all_is_let_go_of()
    {
        var before = _held.Changes;
        _held.Hold(KeyOf(One), "one", [One], 1, before);

        _held.Clear();

        Assert.Equal((false, null), Of(One));
        _held.Hold(KeyOf(One), "one", [One], 1, before);
        Assert.Equal((false, null), Of(One));
        _held.Hold(KeyOf(One), "one", [One], 10, _held.Changes);
        Assert.Equal((true, "one"), Of(One));
    }

    private static HeldKey KeyOf(Entity entity) => new(entity, null, Position.Never);

    private (bool IsHeld, string? Value) Of(Entity entity) => (_held.TryGet(KeyOf(entity), out string? value), value);
}
