using AirwayGuard.Core.Findings;
using Xunit;

namespace AirwayGuard.Core.Tests.Findings;

public sealed class FindingKeysTests
{
    // RFC 9562 appendix A.4: version 5 of "www.example.com" in the name space of DNS names.
    [Fact]
    public void TheIdentifierOfTheStandardsExampleComesOut() =>
        Assert.Equal(new Guid("2ed6657d-e927-568b-95e1-2665a8aea6a2"), NameBasedUuid.Create(new Guid("6ba7b810-9dad-11d1-80b4-00c04fd430c8"), "www.example.com"));

    [Fact]
    public void AKeyIsTheNameOfTheContract() =>
        Assert.Equal(
            NameBasedUuid.Create(NameBasedUuid.Urls, "https://airwayguard.example.org/fhir/flag/vacuum-above-ceiling|Device/r|start|2"),
            FindingKeys.Flag("vacuum-above-ceiling", "Device/r", FindingKeys.Start, 2));

    [Fact]
    public void AnAnchorHasMilliseconds() =>
        Assert.Equal("2026-03-01T10:20:00.000Z", FindingKeys.Anchor(new DateTime(2026, 3, 1, 10, 20, 0, DateTimeKind.Utc).Ticks));
}
