using AirwayGuard.Core.Ports;
using Xunit;

namespace AirwayGuard.TestKit.Ledger;

public abstract partial class LedgerContract
{
    private static UsedToken Token(string id = "one", string issuer = "https://ehr.example/issuer", int minutes = 5) => new(issuer, id, Now.AddMinutes(minutes));

    [Fact]
    public async Task A_token_is_used_once_for_each_issuer_also_after_a_restart_and_leaves_no_trace_in_the_trail()
    {
        Assert.True(await Ledger.UseTokenAsync(Token(), Now, Stop));
        Assert.False(await Ledger.UseTokenAsync(Token(), Now, Stop));
        Assert.True(await Ledger.UseTokenAsync(Token("ONE"), Now, Stop));
        Assert.True(await Ledger.UseTokenAsync(Token(issuer: "https://other.example/issuer"), Now, Stop));

        await ReopenAsync();

        Assert.False(await Ledger.UseTokenAsync(Token(), Now, Stop));
        Assert.False(await Ledger.UseTokenAsync(Token(minutes: 60), Now, Stop));
        Assert.Empty(await Trail());
    }

    [Theory]
    [InlineData(0, false)]
    [InlineData(1, true)]
    public async Task An_id_may_come_again_once_its_token_is_past_and_no_tick_before(int ticksAfter, bool expected)
    {
        Assert.True(await Ledger.UseTokenAsync(Token(), Now, Stop));

        Assert.Equal(expected, await Ledger.UseTokenAsync(Token(minutes: 30), Now.AddMinutes(5).AddTicks(ticksAfter), Stop));
        // Used just now, it is used up; refused just now, it is free once the first is past.
        Assert.Equal(!expected, await Ledger.UseTokenAsync(Token(minutes: 30), Now.AddMinutes(6), Stop));
        Assert.False(await Ledger.UseTokenAsync(Token(minutes: 30), Now.AddMinutes(7), Stop));
    }

    [Fact]
    public async Task A_token_that_is_past_already_cannot_be_used() =>
        Assert.False(await Ledger.UseTokenAsync(Token(minutes: -1), Now, Stop));

    [Fact]
    public async Task An_id_that_came_again_after_a_great_many_were_past_is_used_once_still()
    {
        for (var i = 0; i < 200; i++)
        {
            Assert.True(await Ledger.UseTokenAsync(Token($"early-{i}"), Now, Stop));
        }

        var later = Now.AddMinutes(10);
        Assert.True(await Ledger.UseTokenAsync(Token("early-199", minutes: 60), later, Stop));
        for (var i = 0; i < 10; i++)
        {
            Assert.True(await Ledger.UseTokenAsync(Token($"late-{i}", minutes: 60), later, Stop));
        }

        Assert.False(await Ledger.UseTokenAsync(Token("early-199", minutes: 60), later, Stop));
        Assert.False(await Ledger.UseTokenAsync(Token("late-0", minutes: 60), later, Stop));
    }

    [Fact]
    public async Task Of_many_callers_at_once_at_two_ledgers_one_uses_a_token()
    {
        await Ledger.DisposeAsync();
        await using var one = await OpenAsync(shared: true);
        await using var two = await OpenAsync(shared: true);

        var used = await Task.WhenAll(Enumerable.Range(0, 16).Select(i => Task.Run(async () => await (i % 2 == 0 ? one : two).UseTokenAsync(Token(), Now, Stop))));

        Assert.Single(used, isFirst => isFirst);
    }
}
