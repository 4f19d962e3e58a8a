using AirwayGuard.Core.Charting;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>Coded timing of an order against what R4 says that it means.</summary>
public sealed class OrderTimingTests
{
    // R4 4.0.1, value set timing-abbreviation (HL7 v3 GTSAbbreviation): the definitions of the codes, in hours between two times.
    [Theory]
    [InlineData("BID", "12 h")]
    [InlineData("TID", "8 h")]
    [InlineData("QID", "6 h")]
    [InlineData("AM", "24 h")]
    [InlineData("PM", "24 h")]
    [InlineData("QD", "24 h")]
    [InlineData("QOD", "48 h")]
    [InlineData("Q1H", "1 h")]
    [InlineData("Q2H", "2 h")]
    [InlineData("Q3H", "3 h")]
    [InlineData("Q4H", "4 h")]
    [InlineData("Q6H", "6 h")]
    [InlineData("Q8H", "8 h")]
    [InlineData("BED", "24 h")]
    [InlineData("WK", "168 h")]
    public void AnAbbreviationOfR4IsItsInterval(string code, string hours) => Assert.Equal(
        $"order-interval={hours}; order-by-clock=yes",
        Facts($$""" "occurrenceTiming":{"code":{"coding":[{"system":"http://terminology.hl7.org/CodeSystem/v3-GTSAbbreviation","code":"{{code}}"}]} } """));

    // R4 4.0.1, datatypes, Timing.repeat; the examples of that page as remembered: every 8 hours, every 7 days, 3 times a week, 3 times a day
    // for 14 days, every 4 to 6 hours, twice within 12 hours.
    [Theory]
    [InlineData(""" "frequency":1,"period":8,"periodUnit":"h" """, "8 h")]
    [InlineData(""" "frequency":1,"period":7,"periodUnit":"d" """, "168 h")]
    [InlineData(""" "duration":0.5,"durationUnit":"h","frequency":3,"period":1,"periodUnit":"wk" """, "56 h")]
    [InlineData(""" "boundsDuration":{"value":14,"unit":"days","system":"http://unitsofmeasure.org","code":"d"},"frequency":3,"period":1,"periodUnit":"d" """, "8 h")]
    [InlineData(""" "frequency":1,"period":4,"periodMax":6,"periodUnit":"h" """, "4 h")]
    [InlineData(""" "frequency":1,"frequencyMax":2,"period":12,"periodUnit":"h" """, "6 h")]
    [InlineData(""" "period":30,"periodUnit":"min" """, "0.5 h")]
    [InlineData(""" "timeOfDay":["06:00:00","14:00:00","22:00:00"] """, "8 h")]
    public void ATimingOfR4IsItsInterval(string repeat, string hours) =>
        Assert.Equal($"order-interval={hours}; order-by-clock=yes", Facts($$""" "occurrenceTiming":{"repeat":{ {{repeat}} } } """));

    // R4 4.0.1, ServiceRequest.asNeeded[x]: to be done if the condition is met; with a timing at most so often.
    [Theory]
    [InlineData(""" "asNeededBoolean":true """, "order-as-needed=yes; order-by-clock=no")]
    [InlineData(""" "asNeededBoolean":false """, "order-as-needed=no")]
    [InlineData(""" "asNeededCodeableConcept":{"text":"coarse breath sounds"} """, "order-as-needed=yes; order-by-clock=no")]
    [InlineData(""" "asNeededBoolean":true,"occurrenceTiming":{"repeat":{"frequency":1,"period":2,"periodUnit":"h"}} """, "order-as-needed=yes; order-interval=2 h; order-by-clock=no")]
    public void AsNeededIsNeedWhateverItsTiming(string members, string facts) => Assert.Equal(facts, Facts(members));

    // R4 4.0.1, ServiceRequest.occurrence[x]: when it should occur. Charts write an order's begin there too (common practice, no source).
    [Theory]
    [InlineData(""" "occurrenceDateTime":"2026-03-02T08:00:00Z" """, "order-by-clock=yes")]
    [InlineData(""" "occurrenceDateTime":"2026-03-02T08:00:00Z","asNeededBoolean":true """, "order-as-needed=yes; order-by-clock=no")]
    [InlineData(""" "occurrenceDateTime":"2026-03-02T08:00:00Z","note":[{"text":"suction ETT PRN"}] """, "order-by-clock=no; order-as-needed=yes")]
    [InlineData(""" "occurrencePeriod":{"start":"2026-03-02T08:00:00Z"},"note":[{"text":"suction ETT PRN"}] """, "order-by-clock=no; order-as-needed=yes")]
    [InlineData(""" "occurrencePeriod":{"start":"2026-03-02T08:00:00Z"} """, "order-unread=text")]
    public void ATimeIsWhenItFallsDueWhereNothingElseSaysWhen(string members, string facts) => Assert.Equal(facts, Facts(members));

    // R4 4.0.1, Timing.repeat.when: events of the day are no interval.
    [Theory]
    [InlineData(""" "when":["AC"],"offset":30 """)]
    [InlineData(""" "dayOfWeek":["mon","wed","fri"],"when":["MORN"] """)]
    public void ATimingWithoutAnIntervalIsNamedAsUnread(string repeat)
    {
        var read = Some.Read(Order($$""" "occurrenceTiming":{"repeat":{ {{repeat}} } } """));

        Assert.Equal("AG2118", read.Codes);
        Assert.Contains(read.Reading.Facts, fact => fact.Concept == Concepts.OrderUnread);
    }

    private static string Facts(string members) => string.Join("; ", Some.Read(Order(members)).Reading.Facts.Skip(2).Select(fact => $"{fact.Concept}={Read.InWords(fact.Value)}"));

    private static string Order(string members) => $$"""
        {"resourceType":"ServiceRequest","id":"s","status":"active","intent":"order","code":{"coding":[{"system":"http://snomed.info/sct","code":"230040009"}]},
         "subject":{"reference":"Patient/p1"},"authoredOn":"2026-03-01T08:00:00Z",{{members}} }
        """;
}
