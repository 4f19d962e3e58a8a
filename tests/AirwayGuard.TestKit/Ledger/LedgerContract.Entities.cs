using AirwayGuard.Core.Charting;
using Xunit;

namespace AirwayGuard.TestKit.Ledger;

public abstract partial class LedgerContract
{
    [Fact]
    public async Task A_name_has_one_number_for_all_callers()
    {
        var given = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(() =>
            Enumerable.Range(0, 500).Select(i => Ledger.Intern($"Patient/{i}")).ToArray())));

        Assert.All(given, g => Assert.Equal(given[0], g));
        Assert.Equal(500, given[0].Distinct().Count());
        Assert.NotEqual(Ledger.Intern("a|b", EntityKind.RowCode).Packed, Ledger.Intern("a|b", EntityKind.GroupKey).Packed);
        Assert.Equal("Patient/499", Ledger.NameOf(given[0][499]));
        Assert.Equal("", Ledger.NameOf(default));
    }

    [Fact]
    public async Task Names_and_identities_outlive_a_restart()
    {
        var kept = Charted.Vacuum(Ledger, "1", "1", "Patient/ü", 120, identifier: "urn:rows|9");
        await Keep(kept);
        var (row, patient) = (kept.Reading.Self, Ledger.Intern("Patient/ü"));

        await ReopenAsync();

        Assert.Equal((row, patient), (Ledger.Intern("Observation/1"), Ledger.Intern("Patient/ü")));
        Assert.Equal("urn:rows|9", Ledger.IdentityOf(row));
        Assert.Equal("Patient/ü", Ledger.IdentityOf(patient));
        Assert.Equal("Patient/ü", Ledger.NameOf(patient));
    }

    [Fact]
    public async Task An_identity_once_given_never_changes()
    {
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120), Charted.Vacuum(Ledger, "2", "1", "Patient/1", 120));
        var (asked, notAsked) = (Ledger.Intern("Observation/1"), Ledger.Intern("Observation/2"));
        Assert.Equal("Observation/1", Ledger.IdentityOf(asked));

        foreach (var (id, version) in new[] { ("1", "2"), ("2", "2"), ("2", "3") })
        {
            await Keep(Charted.Vacuum(Ledger, id, version, "Patient/1", 120, knownAfter: 1, identifier: $"urn:rows|{version}"));
        }

        Assert.Equal("Observation/1", Ledger.IdentityOf(asked));
        Assert.Equal("urn:rows|2", Ledger.IdentityOf(notAsked));
        await ReopenAsync();
        Assert.Equal("Observation/1", Ledger.IdentityOf(asked));
        Assert.Equal("urn:rows|2", Ledger.IdentityOf(notAsked));
    }
}
