using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Anchoring;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Tests;

public sealed class AuditAnchorEventTests
{
    private static readonly AuditHead Head = new(1, 78, new string('c', 64));
    private static readonly DateTimeOffset Noon = new(2026, 3, 1, 12, 0, 0, TimeSpan.Zero);

    [Fact]
    public void AHead_IsReadBackAsItWasWritten()
    {
        Assert.True(AuditAnchorEvent.TryRead(AuditAnchorEvent.Build(Head, Noon), out var read));
        Assert.Equal(Head, read);
    }

    [Theory]
    [InlineData("")]
    [InlineData("1-78")]
    [InlineData("1-x-cccccccccccccccccccccccccccccccccccccccccccccccccccccccccccccccc")]
    [InlineData("1-78-cc")]
    [InlineData("-1-78-cccccccccccccccccccccccccccccccccccccccccccccccccccccccccccccccc")]
    public void WhatIsNotOfAHeadsForm_IsNoAnchor(string value)
    {
        var audit = AuditAnchorEvent.Build(Head, Noon);
        audit.Entity[0].What!.Identifier!.Value = value.Length == 0 ? null : value;

        Assert.False(AuditAnchorEvent.TryRead(audit, out _));
    }

    [Fact]
    public void AnEventOfSomebodyElse_IsNoAnchor()
    {
        var audit = AuditAnchorEvent.Build(Head, Noon);
        audit.Entity[0].What!.Identifier!.System = "https://ehr.example.org/sid/request";

        Assert.False(AuditAnchorEvent.TryRead(audit, out _));
    }

    [Fact]
    public void AnAnchor_NamesNoPatient() =>
        Assert.All(AuditAnchorEvent.Build(Head, Noon).Entity, entity => Assert.Null(entity.What!.Reference));
}
