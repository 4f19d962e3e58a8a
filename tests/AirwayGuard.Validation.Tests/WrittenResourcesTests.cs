using AirwayGuard.Core.Findings;
using AirwayGuard.Fhir.WriteBack;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;
using Xunit;

namespace AirwayGuard.Validation.Tests;

public sealed class WrittenResourcesTests(Specification specification)
{
    public static TheoryData<string> Names => [.. Written.All.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void WhatIsWritten_IsValidR4(string name) => Assert.Empty(specification.ErrorsOf(Written.All[name]()));

    [Theory]
    [MemberData(nameof(Names))]
    public void WhatIsWritten_PassesWhatTheValidatorDoesNotSee(string name) => Assert.Empty(OwnAsserts.ErrorsOf(Written.All[name](), specification));

    [Theory]
    [MemberData(nameof(Names))]
    public void WhatIsWritten_ReadsBackStrictly(string name)
    {
        var json = FhirJsonSerializer.Default.SerializeToString(Written.All[name]());

        Assert.Equal(json, FhirJsonSerializer.Default.SerializeToString(FhirJsonDeserializer.STRICT.DeserializeResource(json)));
    }

    [Fact]
    public void TheBundleOfFindings_IsValidR4()
    {
        var bundle = FindingsBundle.Build([Written.Issue], [Written.Flag]);

        Assert.Empty(specification.ErrorsOf(bundle));
        Assert.All(bundle.Entry, entry => Assert.Empty(OwnAsserts.ErrorsOf((DomainResource)entry.Resource!, specification)));
    }

    [Fact]
    public void TheFlagOfABundle_LinksToTheIssueBesideIt()
    {
        var bundle = FindingsBundle.Build([Written.Issue], [Written.Flag]);
        var flag = (Flag)bundle.Entry[1].Resource!;

        Assert.Equal(bundle.Entry[0].FullUrl, ((ResourceReference)flag.Extension[0].Value!).Reference);
    }

    [Fact]
    public void TheValidator_RefusesAFlagWithoutCode()
    {
        var flag = Written.Of(Written.Flag);
        flag.Code = null!;

        Assert.NotEmpty(specification.ErrorsOf(flag));
    }

    [Fact]
    public void AFlagOnADevice_IsRefusedByTheBuilderAndByTheAsserts()
    {
        var flag = Written.Of(Written.Flag);
        flag.Subject = new ResourceReference("Device/r1");

        Assert.Contains(OwnAsserts.ErrorsOf(flag, specification), error => error.Contains("may not refer to Device", StringComparison.Ordinal));
        Assert.Throws<ArgumentException>(() => Written.Of(Written.Flag with { Subject = "Device/r1" }));
    }

    [Fact]
    public void AnUnknownCode_AMissingNarrativeAndAWrongCheckDigit_AreRefusedByTheAsserts()
    {
        var flag = Written.Of(Written.Flag);
        flag.Text = null;
        flag.Category[0].Coding[0].Code = "no-such-category";
        flag.Category[0].Coding.Add(new Coding("http://loinc.org", "8867-5"));

        Assert.Equal(3, OwnAsserts.ErrorsOf(flag, specification).Count);
    }

    [Theory]
    [InlineData("8867-4", true)]
    [InlineData("79562-5", true)]
    [InlineData("8867-5", false)]
    [InlineData("8867", false)]
    public void ALoincCode_IsKnownByItsCheckDigit(string code, bool isRight) => Assert.Equal(isRight, OwnAsserts.IsLoinc(code));

    [Fact]
    public void ADetectedIssueOfNoPatient_LeavesThePatientOut() => Assert.Null(Written.Of(Written.Issue with { Patient = null }).Patient);

    [Fact]
    public void TheIdentifiedTime_IsWhenItBecameKnown_AndTheEventsTimeStandsInDetail()
    {
        var issue = Written.Of(Written.Issue);

        Assert.Equal("2026-03-01T12:03:00.413+10:00", ((FhirDateTime)issue.Identified!).Value);
        Assert.Contains("Happened 2026-03-01 12:00:00 +10:00.", issue.Detail, StringComparison.Ordinal);
        Assert.Equal(FindingKeys.Base + "sid/finding", issue.Identifier[0].System);
    }
}
