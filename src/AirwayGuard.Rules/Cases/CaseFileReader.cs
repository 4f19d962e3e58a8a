using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Cases;

/// <summary>Reads a file of cases, schema version 1. It never throws for what a document holds.</summary>
internal static class CaseFileReader
{
    private const string SchemaVersion = "1";
    private const string What = "The document";

    private static readonly ImmutableArray<string> CaseKeys =
        ["case", "about", "born", "stay", "unknown-age", "as-of", "things", "chart", "finds", "cannot-tell"];

    private static readonly ImmutableArray<(string Word, UnknownAge Value)> UnknownAges =
        [("cannot-tell", UnknownAge.CannotTell), ("strictest-band", UnknownAge.StrictestBand)];

    /// <param name="utf8">At most 1 MB.</param>
    /// <param name="file">The name that faults carry.</param>
    public static CaseFile Read(ReadOnlyMemory<byte> utf8, string file)
    {
        var faults = new Faults(file);
        var (also, cases) = ("", ImmutableArray<Case>.Empty);
        if (DocumentText.TryDecode(utf8.Span, faults, out var text))
        {
            var events = EventCheck.Run(text, faults);
            if (!faults.Any && NodeTree.Build(events, faults) is var root)
            {
                (also, cases) = Document(root, faults);
            }
        }

        return new CaseFile(file, also, cases, faults.InOrder());
    }

    private static (string Also, ImmutableArray<Case> Cases) Document(Node? root, Faults faults)
    {
        if (root is null)
        {
            faults.Add(Codes.CaseFileEmpty, new Place(1, 1), "The document holds nothing.");
            return ("", []);
        }

        if (Keys.Of(root, faults, What, "schema", "also", "cases") is not { } keys)
        {
            return ("", []);
        }

        if (keys.TryRequiredText("schema", What, out var schema) && schema.Text != SchemaVersion)
        {
            faults.Add(Codes.RuleSetSchemaWrong, schema.At, $"The schema is {Words.Quote(schema.Text)}.");
        }

        var also = keys.TryText("also", out var named) ? named.Text.Trim() : "";
        if (also.Length > 0 && !ShippedRuleSets.Names.Contains(also, StringComparer.Ordinal))
        {
            faults.Add(Codes.CaseNameUnknown, named!.At, $"No shipped rule set is called {Words.Quote(also)}.{Words.DidYouMean(also, ShippedRuleSets.Names)}", Words.Listed(ShippedRuleSets.Names));
        }

        var cases = keys.Required("cases", What) is { } list ? keys.Items(list, "cases").Select(node => One(node, faults)).OfType<Case>().ToImmutableArray() : [];
        foreach (var doubled in cases.GroupBy(one => one.Name, StringComparer.Ordinal).SelectMany(group => group.Skip(1)))
        {
            faults.Add(Codes.CaseNameDoubled, doubled.At, $"Another case is called {Words.Quote(doubled.Name)}.");
        }

        return (also, cases);
    }

    private static Case? One(Node node, Faults faults)
    {
        if (Keys.Of(node, faults, "A case", CaseKeys) is not { } keys || !keys.TryRequiredText("case", "A case", out var name))
        {
            return null;
        }

        var about = keys.Required("about", "A case") is { } list
            ? keys.Items(list, "about").Select(item => Check(item, faults)).OfType<string>().ToImmutableArray()
            : [];
        var chart = new CaseChartReader(faults);
        var things = chart.Things(keys);
        var (rows, orders) = chart.Chart(keys);
        var asOf = AsOf(keys, faults);
        if (asOf is { } judged && (rows.Length > 0 || orders.Length > 0) && rows.All(row => row.From > judged) && orders.All(order => order.Authored > judged))
        {
            faults.Add(Codes.CaseChartsNothing, name.At, "Everything is charted later than as-of.");
        }

        var expected = new CaseExpectations(faults);
        return new Case(
            name.At, name.Text.Trim(), about, Born(keys, faults), Stay(keys, faults),
            keys.Word("unknown-age", UnknownAges, Codes.CaseWordUnknown, UnknownAge.CannotTell), asOf, things, rows, orders,
            expected.Finds(keys), expected.CannotTell(keys));
    }

    // A case about nothing would hold whatever comes.
    private static string? Check(Node item, Faults faults)
    {
        if (item is TextNode { IsBlank: false } text)
        {
            return text.Text.Trim();
        }

        faults.Add(Codes.RuleSetShapeWrong, item.At, $"A check that a case is about is {(item is TextNode ? "empty" : item.Shape)}.", "Write its id.");
        return null;
    }

    private static FactValue? Born(Keys keys, Faults faults)
    {
        if (!keys.TryText("born", out var text))
        {
            return null;
        }

        if (CaseTime.TryBirth(text.Text, out var born))
        {
            return FactValue.Date(born.Year, born.Month, born.Day, born.Precision);
        }

        faults.Add(Codes.CaseTimeUnreadable, text.At, $"born is {Words.Quote(text.Text)}.", "Write a date such as 1960-05-04 or 1960-05, or an age on day 1 such as 12 days, 5 months, 66 years; leave it out where no age is charted.");
        return null;
    }

    private static string Stay(Keys keys, Faults faults)
    {
        if (!keys.TryText("stay", out var text))
        {
            return "";
        }

        var known = Concepts.Info(Concepts.EncounterClass).Answers;
        if (!known.Contains(text.Text, StringComparer.Ordinal))
        {
            faults.Add(Codes.CaseWordUnknown, text.At, $"stay is {Words.Quote(text.Text)}.{Words.DidYouMean(text.Text, known)}", Words.Listed(known));
            return "";
        }

        return text.Text;
    }

    private static long? AsOf(Keys keys, Faults faults)
    {
        if (!keys.TryText("as-of", out var text))
        {
            return null;
        }

        if (CaseTime.TryRead(text.Text, out var ticks))
        {
            return ticks;
        }

        faults.Add(Codes.CaseTimeUnreadable, text.At, $"as-of is {Words.Quote(text.Text)}.", CaseTime.Example);
        return null;
    }
}
