using System.Text;
using AirwayGuard.Fhir.Reading;
using Xunit;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>What is taken of a Location: its name, what it is part of, whether it is a ward.</summary>
public sealed class PlaceDocumentTests
{
    private const string Ward = """ "physicalType":{"coding":[{"system":"http://terminology.hl7.org/CodeSystem/location-physical-type","code":"wa"}]} """;

    [Fact]
    public void NameAndPlaceAbove_AreTaken() =>
        Assert.Equal(new PlaceDocument("Bed 1", "Location/bay", false), Read(""" "name":" Bed 1 ","partOf":{"reference":"Location/bay"} """));

    [Fact]
    public void OneOfTheTypeWardIsAWard() => Assert.Equal(new PlaceDocument("", "", true), Read(Ward));

    [Theory]
    [InlineData("https://ehr.example.org/fhir/Location/bay", "Location/bay")]
    [InlineData("Location/bay/_history/3", "Location/bay")]
    [InlineData("Organization/bay", "")]
    [InlineData("#bay", "")]
    public void AReferenceIsTakenInAnyOfItsForms(string reference, string partOf) => Assert.Equal(partOf, Read($$""" "partOf":{"reference":"{{reference}}"} """)!.PartOf);

    [Theory]
    [InlineData("""{"resourceType":"Device","id":"d"}""")]
    [InlineData("""{"resourceType":"Location","id":"l","meta":{"security":[{"code":"HTEST"}]}}""")]
    [InlineData("""{"resourceType":"Location","id":"l","modifierExtension":[{"url":"https://example.org/not","valueBoolean":true}]}""")]
    [InlineData("""{"resourceType":"Location",""")]
    [InlineData("[]")]
    [InlineData("")]
    public void WhatIsNoLocationThatCanBeReadIsNone(string body) => Assert.Null(PlaceDocument.Read(Encoding.UTF8.GetBytes(body)));

    [Theory]
    [InlineData(""" "name":7 """)]
    [InlineData(""" "partOf":"bay" """)]
    [InlineData(""" "partOf":{"reference":7} """)]
    [InlineData(""" "physicalType":{"coding":[null]} """)]
    [InlineData(""" "physicalType":{"coding":"wa"} """)]
    public void AnElementOfAWrongFormSaysNothing_AndBreaksNothing(string member)
    {
        var place = Read(member);

        Assert.True(place is null || (place.PartOf.Length == 0 && !place.IsWard));
    }

    private static PlaceDocument? Read(string members) => PlaceDocument.Read(Encoding.UTF8.GetBytes($$"""{"resourceType":"Location","id":"l",{{members}} }"""));
}
