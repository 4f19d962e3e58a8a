using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.CdsHooks;

namespace AirwayGuard.Fhir.Tests.CdsHooks;

/// <summary>What is told of cards is kept entry by entry: one that cannot be read costs none of the others.</summary>
public sealed class FeedbackReaderTests
{
    private const string Card = "4f8f2a0e-58a7-4c0b-9a65-0d2b6a1c0001", Suggestion = "4f8f2a0e-58a7-4c0b-9a65-0d2b6a1c0002", Mark = "zq7Mark";

    [Fact]
    public void All_that_is_told_is_read()
    {
        var reading = Read(Whole());

        Assert.Empty(reading.Faults);
        var (index, entry) = Assert.Single(reading.Entries);
        Assert.Equal((0, Guid.Parse(Card), CardOutcome.Overridden, new DateTimeOffset(2026, 3, 1, 9, 55, 0, TimeSpan.Zero)), (index, entry.Card, entry.Outcome, entry.At));
        Assert.Equal([Guid.Parse(Suggestion)], entry.Suggestions);
        Assert.Equal(("https://x.test/reason", "thick", "Thick secretions", "Tube was changed."), (entry.ReasonSystem, entry.ReasonCode, entry.ReasonDisplay, entry.Comment));
        Assert.DoesNotContain("Tube", entry.ToString() + reading.Entries[0], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("acceptedSuggestions", null)]
    [InlineData("acceptedSuggestions", "null")]
    [InlineData("acceptedSuggestions", "[]")]
    [InlineData("overrideReason", null)]
    [InlineData("overrideReason", "null")]
    [InlineData("overrideReason", "{}")]
    [InlineData("overrideReason.reason", null)]
    [InlineData("overrideReason.reason", "null")]
    [InlineData("overrideReason.reason.display", null)]
    [InlineData("overrideReason.reason.userSelected", "true")]
    [InlineData("overrideReason.userComment", null)]
    [InlineData("overrideReason.userComment", "\"\"")]
    [InlineData("outcome", "\"accepted\"")]
    [InlineData("card", $"\"urn:uuid:{Card}\"")]
    [InlineData("extension", "{\"a\":[1]}")]
    public void What_may_be_missing_or_is_not_known_does_not_hinder(string path, string? json)
    {
        var reading = Read(Ask.With(Whole(), path, json));

        Assert.Empty(reading.Faults);
        Assert.Equal(Guid.Parse(Card), Assert.Single(reading.Entries).Feedback.Card);
    }

    [Theory]
    [InlineData("card", null, "card")]
    [InlineData("card", "\"c1\"", "card")]
    [InlineData("card", "5", "card")]
    [InlineData("outcome", null, "outcome")]
    [InlineData("outcome", "\"ignored\"", "outcome")]
    [InlineData("outcome", "\"Accepted\"", "outcome")]
    [InlineData("outcomeTimestamp", null, "outcomeTimestamp")]
    [InlineData("outcomeTimestamp", "\"2026-03-01\"", "outcomeTimestamp")]
    [InlineData("outcomeTimestamp", "\"2026-03-01T09:55:00\"", "outcomeTimestamp")]
    [InlineData("outcomeTimestamp", "\"2026-02-30T09:55:00Z\"", "outcomeTimestamp")]
    [InlineData("outcomeTimestamp", "1772358900", "outcomeTimestamp")]
    [InlineData("acceptedSuggestions", "{}", "acceptedSuggestions")]
    [InlineData("acceptedSuggestions", "[\"x\"]", "acceptedSuggestions[0].id")]
    [InlineData("acceptedSuggestions", $"[{{\"id\":\"{Suggestion}\"}},{{\"id\":\"s2\"}}]", "acceptedSuggestions[1].id")]
    [InlineData("acceptedSuggestions", "[{}]", "acceptedSuggestions[0].id")]
    [InlineData("overrideReason", "\"thick\"", "overrideReason")]
    [InlineData("overrideReason.reason", "\"thick\"", "overrideReason.reason")]
    [InlineData("overrideReason.reason.code", "5", "overrideReason.reason.code")]
    [InlineData("overrideReason.reason.system", "{}", "overrideReason.reason.system")]
    [InlineData("overrideReason.reason.display", "[]", "overrideReason.reason.display")]
    [InlineData("overrideReason.userComment", "[]", "overrideReason.userComment")]
    public void A_bad_entry_is_told_with_its_place_and_the_others_are_kept(string path, string? json, string where)
    {
        var reading = Read(Whole(), Ask.With(Whole(), path, json), Whole());

        Assert.Equal([0, 2], reading.Entries.Select(entry => entry.Index));
        Assert.Equal(("AG8113", $"feedback[1].{where}", 400), Assert.Single(reading.Faults) is var fault ? (fault.Code.Id, fault.Where, fault.Status) : default);
    }

    [Theory]
    [InlineData("null")]
    [InlineData("[]")]
    [InlineData("\"x\"")]
    [InlineData("{\"card\":\"\\ud800\"}")]
    [InlineData("{\"\\ud800\":1}")]
    [InlineData("{\"card\":\"a\",\"card\":\"b\"}")]
    public void An_entry_of_a_wrong_form_costs_none_of_the_others(string entry)
    {
        var reading = Read($"{{\"feedback\":[{entry},{Whole().ToJsonString()}]}}");

        Assert.Equal(1, Assert.Single(reading.Entries).Index);
        Assert.Equal(("AG8113", "feedback[0]"), Assert.Single(reading.Faults) is var fault ? (fault.Code.Id, fault.Where) : default);
    }

    [Theory]
    [InlineData("", "AG8101")]
    [InlineData("[]", "AG8101")]
    [InlineData("{\"feedback\":[", "AG8101")]
    [InlineData("{\"feedback\":[]} x", "AG8101")]
    [InlineData("{\"feedback\":[],\"feedback\":[]}", "AG8101")]
    [InlineData("{}", "AG8113")]
    [InlineData("{\"feedback\":null}", "AG8113")]
    [InlineData("{\"feedback\":{}}", "AG8113")]
    public void A_body_without_a_list_of_feedback_is_one_fault(string body, string code)
    {
        var reading = Read(body);

        Assert.Empty(reading.Entries);
        Assert.Equal(code, Assert.Single(reading.Faults).Code.Id);
    }

    [Theory]
    [InlineData("2026-03-01T09:55:00Z")]
    [InlineData("2026-03-01T20:55:00+11:00")]
    [InlineData("2026-03-01T09:55:00.000-00:00")]
    [InlineData("2026-03-01T09:55Z")]
    public void A_time_with_any_offset_is_the_instant(string time) =>
        Assert.Equal(new DateTimeOffset(2026, 3, 1, 9, 55, 0, TimeSpan.Zero), Assert.Single(Read(Ask.With(Whole(), "outcomeTimestamp", $"\"{time}\"")).Entries).Feedback.At);

    [Theory]
    [InlineData(4000, true)]
    [InlineData(4001, false)]
    public void A_comment_too_long_is_refused_and_never_cut(int length, bool isRead)
    {
        var reading = Read(Ask.With(Whole(), "overrideReason.userComment", $"\"{new string('a', length)}\""));

        Assert.Equal(isRead ? length : null, reading.Entries.SingleOrDefault()?.Feedback.Comment.Length);
        Assert.Equal(isRead ? null : "feedback[0].overrideReason.userComment", reading.Faults.SingleOrDefault()?.Where);
    }

    [Theory]
    [InlineData(20, true)]
    [InlineData(21, false)]
    public void An_entry_names_at_most_20_suggestions(int count, bool isRead)
    {
        var named = string.Join(',', Enumerable.Range(0, count).Select(i => $"{{\"id\":\"{new Guid(i + 1, 0, 0, new byte[8])}\"}}"));

        var reading = Read(Ask.With(Whole(), "acceptedSuggestions", $"[{named}]"));

        Assert.Equal(isRead ? count : 0, reading.Entries.SelectMany(entry => entry.Feedback.Suggestions).Count());
        Assert.Equal(isRead, reading.Faults.IsEmpty);
    }

    [Fact]
    public void A_suggestion_named_twice_is_one() =>
        Assert.Single(Read(Ask.With(Whole(), "acceptedSuggestions", $"[{{\"id\":\"{Suggestion}\"}},{{\"id\":\"{Suggestion.ToUpperInvariant()}\"}}]")).Entries[0].Feedback.Suggestions);

    [Theory]
    [InlineData(1000, null)]
    [InlineData(1001, "feedback[1000]")]
    [InlineData(1500, "feedback[1000]")]
    public void A_thousand_entries_are_read_and_that_there_were_more_is_told(int count, string? where)
    {
        var reading = Read([.. Enumerable.Range(0, count).Select(_ => Whole())]);

        Assert.Equal(1000, reading.Entries.Length);
        Assert.Equal(where, reading.Faults.SingleOrDefault()?.Where);
    }

    [Fact]
    public void A_value_of_any_kind_in_any_place_throws_nothing_and_is_never_quoted()
    {
        string[] values = ["null", "true", "5", $"\"{Mark}\"", "\"\\ud800\"", "[]", "{}", $"[[\"{Mark}\"]]", $"{{\"{Mark}\":1}}", "-", ""];
        var body = $"{{\"feedback\":[{Whole().ToJsonString()}]}}";
        foreach (var changed in values.SelectMany(value => Ask.Changed(body, value)))
        {
            var reading = Read(changed);

            Assert.Equal(changed == "{\"feedback\":[]}" ? 0 : 1, reading.Entries.Length + reading.Faults.Length);
            Assert.DoesNotContain(Mark, string.Concat(reading.Faults.Select(fault => fault.Where + fault.Why)), StringComparison.Ordinal);
        }
    }

    private static JsonObject Whole() => JsonNode.Parse($$$"""
        {"card":"{{{Card}}}","outcome":"overridden","outcomeTimestamp":"2026-03-01T09:55:00Z","acceptedSuggestions":[{"id":"{{{Suggestion}}}"}],
         "overrideReason":{"reason":{"system":"https://x.test/reason","code":"thick","display":"Thick secretions"},"userComment":"Tube was changed."}}
        """)!.AsObject();

    private static FeedbackReading Read(params JsonNode[] entries) => Read($"{{\"feedback\":[{string.Join(',', entries.Select(entry => entry.ToJsonString()))}]}}");

    private static FeedbackReading Read(string body) => FeedbackReader.Read(Encoding.UTF8.GetBytes(body));
}
