using AirwayGuard.Fhir.CdsHooks;

namespace AirwayGuard.Fhir.Tests.CdsHooks;

/// <summary>What was looked up, what was not there, and what could not be looked up are three things.</summary>
public sealed class PrefetchTests
{
    [Fact]
    public void Null_says_that_there_is_nothing() => Assert.Same(PrefetchPart.Nothing, Ask.Prefetched("null"));

    [Fact]
    public void A_key_that_is_not_sent_is_absent() => Assert.DoesNotContain("tubes", Ask.Read(Ask.Whole(Hook.PatientView), Hook.PatientView).Request!.Prefetch.Keys, StringComparer.Ordinal);

    [Theory]
    [InlineData("""{"resourceType":"OperationOutcome","issue":[{"severity":"error","code":"timeout"}]}""")]
    [InlineData("\"Device\"")]
    [InlineData("5")]
    [InlineData("true")]
    [InlineData("[]")]
    [InlineData("""[{"resourceType":"Device"}]""")]
    [InlineData("{}")]
    [InlineData("""{"resourceType":5}""")]
    [InlineData("""{"resourceType":"no type"}""")]
    [InlineData("""{"resourceType":"Bundle","entry":{}}""")]
    [InlineData("""{"resourceType":"Bundle","entry":[null]}""")]
    [InlineData("""{"resourceType":"Bundle","entry":[{"fullUrl":"urn:uuid:1"}]}""")]
    [InlineData("""{"resourceType":"Bundle","entry":[{"resource":{"resourceType":"Device","id":"d1"}},{"resource":{"id":"d2"}}]}""")]
    [InlineData("""{"resourceType":"Bundle","link":[{"relation":"next"}]}""")]
    [InlineData("""{"resourceType":"Bundle","link":[{"relation":"next","url":5}]}""")]
    public void What_cannot_be_used_whole_counts_as_not_looked_up(string json) => Assert.Equal(PrefetchState.Failed, Ask.Prefetched(json).State);

    [Fact]
    public void One_resource_is_one()
    {
        var part = Ask.Prefetched("""{"id":"d1","resourceType":"Device"}""");

        Assert.Equal((PrefetchState.Given, null), (part.State, part.NextPage));
        Assert.Equal(
            ("Device", "d1", """{"id":"d1","resourceType":"Device"}""", "prefetch.airway"),
            Assert.Single(part.Resources) is var one ? (one.Type, one.Id, Ask.Text(one.Body), one.Where) : default);
    }

    [Fact]
    public void Of_a_search_matches_and_what_was_included_are_kept_and_words_about_the_search_are_not()
    {
        var part = Ask.Prefetched("""
            {"entry":[{"resource":{"resourceType":"DeviceUseStatement","id":"u1"},"search":{"mode":"match"}},
                      {"search":{"mode":"include"},"resource":{"resourceType":"Device","id":"d1"}},
                      {"resource":{"resourceType":"OperationOutcome","issue":[]}},
                      {"search":{"mode":"outcome"},"resource":{"resourceType":"Basic"}}],
             "link":[{"relation":"self","url":"https://ehr.example.org/fhir/x"},{"relation":"next","url":"https://ehr.example.org/fhir?page=2"}],
             "resourceType":"Bundle","type":"searchset","total":9}
            """);

        Assert.Equal(["prefetch.airway.entry[0].resource", "prefetch.airway.entry[1].resource"], part.Resources.Select(one => one.Where), StringComparer.Ordinal);
        Assert.Equal(["DeviceUseStatement/u1", "Device/d1"], part.Resources.Select(one => $"{one.Type}/{one.Id}"), StringComparer.Ordinal);
        Assert.Equal("https://ehr.example.org/fhir?page=2", part.NextPage);
    }

    [Theory]
    [InlineData("""{"resourceType":"Bundle"}""")]
    [InlineData("""{"resourceType":"Bundle","type":"searchset","total":0,"entry":[]}""")]
    [InlineData("""{"resourceType":"Bundle","entry":null,"link":null}""")]
    public void A_search_that_found_nothing_is_given(string json) => Assert.Equal((PrefetchState.Given, 0), Ask.Prefetched(json) is var part ? (part.State, part.Resources.Length) : default);

    [Fact]
    public void A_resource_that_has_entries_and_is_no_Bundle_is_one_resource() =>
        Assert.Equal("List", Assert.Single(Ask.Prefetched("""{"entry":[{"item":{"reference":"Device/d1"}}],"resourceType":"List"}""").Resources).Type);

    [Fact]
    public void A_key_of_odd_letters_is_told_by_its_number()
    {
        var (request, _) = Ask.Read(Ask.With(Hook.PatientView, "prefetch", """{"a":null,"of Anna":{"resourceType":"Device"}}"""), Hook.PatientView);

        Assert.Equal("prefetch[1]", request!.Prefetch["of Anna"].Resources[0].Where);
    }
}
