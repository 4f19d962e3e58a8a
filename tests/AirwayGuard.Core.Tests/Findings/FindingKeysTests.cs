using AirwayGuard.Core.Findings;
using Xunit;

namespace AirwayGuard.Core.Tests.Findings;

public sealed class FindingKeysTests
{
    // RFC 9562 appendix A.4: version 5 of "www.example.com" in the name space of DNS names.
    [Fact]
    public void TheIdentifierOfTheStandardsExampleComesOut() =>
        Assert.Equal(new Guid("2ed6657d-e927-568b-95e1-2665a8aea6a2"), NameBasedUuid.Create(new Guid("6ba7b810-9dad-11d1-80b4-00c04fd430c8"), "www.example.com"));

    // Name spaces of RFC 4122 appendix C; the identifiers come from another implementation of §4.3.
    [Theory]
    [InlineData("6ba7b810-9dad-11d1-80b4-00c04fd430c8", "python.org", "886313e1-3b8a-5372-9b90-0c9aee199e5d")]
    [InlineData("6ba7b811-9dad-11d1-80b4-00c04fd430c8", "http://python.org/", "4c565f0d-3f5a-5890-b41b-20cf47701c5e")]
    [InlineData("6ba7b812-9dad-11d1-80b4-00c04fd430c8", "1.3.6.1", "1447fa61-5277-5fef-a9b3-fbc6e44f4af3")]
    [InlineData("6ba7b814-9dad-11d1-80b4-00c04fd430c8", "c=ca", "cc957dd1-a972-5349-98cd-874190002798")]
    public void AnIdentifierOfEachNameSpaceComesOutAsElsewhere(string space, string name, string identifier) =>
        Assert.Equal(new Guid(identifier), NameBasedUuid.Create(new Guid(space), name));

    [Fact]
    public void AKeyIsTheNameOfTheContract() =>
        Assert.Equal(
            NameBasedUuid.Create(NameBasedUuid.Urls, "https://airwayguard.example.org/fhir/flag/vacuum-above-ceiling|Device/r|start|2"),
            FindingKeys.Flag("vacuum-above-ceiling", "Device/r", FindingKeys.Start, 2));

    [Fact]
    public void AFindingThatMovedHasANumberAtItsEnd() =>
        Assert.Equal(
            NameBasedUuid.Create(NameBasedUuid.Urls, "https://airwayguard.example.org/fhir/finding/vacuum-above-ceiling|Observation/o|2"),
            FindingKeys.Issue("vacuum-above-ceiling", "Observation/o", 2));

    [Fact]
    public void AnAnchorHasMilliseconds() =>
        Assert.Equal("2026-03-01T10:20:00.000Z", FindingKeys.Anchor(new DateTime(2026, 3, 1, 10, 20, 0, DateTimeKind.Utc).Ticks));
}
