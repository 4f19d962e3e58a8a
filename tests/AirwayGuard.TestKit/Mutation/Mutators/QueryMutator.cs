using System.Text;

namespace AirwayGuard.TestKit.Mutation.Mutators;

/// <summary>Makes query strings of search: names with modifiers and chains, values of each kind at its edges, and breaks some.</summary>
internal static class QueryMutator
{
    private static readonly string[] Names =
    [
        "_id", "_lastUpdated", "_count", "_sort", "_summary", "_total", "_include", "_revinclude", "_tag", "_security", "_profile", "_source", "_format", "_has:Observation:patient:code", "_has:Observation:patient",
        "_has:", "code", "subject", "patient", "date", "value-quantity", "combo-code", "identifier", "status", "name", "birthdate", "focus", "based-on", "target", "part-of", "encounter", "category", "value-string",
        "component-value-quantity", "probability", "nothing", "", "entity", "item", "has-member", "device", "specimen", "url", "criteria", "context",
    ];

    private static readonly string[] Modifiers = ["", "", "", ":missing", ":not", ":exact", ":contains", ":identifier", ":Patient", ":text", ":above", ":", ":Nothing", ".", ".name", ".identifier"];

    private static readonly string[] Links = ["subject", "patient", "focus", "encounter", "target", "entity", "part-of", "based-on", "item", "subject:Patient", "has-member"];

    private static readonly string[] Prefixes = ["", "", "eq", "ne", "gt", "ge", "lt", "le", "sa", "eb", "ap", "xx"];

    private static readonly string[] Values =
    [
        "", "a", "true", "false", "count", "0", "-1", "99999999999", "http://loinc.org|1234-5", "|a", "a|", "|", "||", "a|b|c", "5.4|http://unitsofmeasure.org|mg", "5||mg", "\\", "a\\,b", "\\|", "\\\\,", ",", ",,,",
        "Patient/p1", "Patient/p1/_history/2", "http://sandbox.test/fhir/Patient/p1", "http://elsewhere.test/Patient/p1", "urn:uuid:1", "#a", "/", "-date,_id", "-", "-,-", "Observation:subject", "Observation:subject:Patient",
        "Observation:", ":", "\u202E", "\0", "%", "%4", "%ZZ", "%ff", "%ed%a0%80", "%00", "+", "%2b", "' OR 1=1 --", "5e", "e5", "1e5 ", " 1e5", "1e+", ".", "5.", "inf", "NaN", "0x1", "1,5",
    ];

    public static byte[] Mutate(Dice dice)
    {
        var query = new StringBuilder(dice.Once(8) ? "?" : "");
        for (var left = dice.Once(300) ? 70 : 1 + dice.Next(4); left > 0; left--)
        {
            Name(query, dice);
            query.Append(dice.Once(40) ? "" : "=");
            var values = dice.Once(500) ? 410 : dice.Once(6) ? 3 : 1;
            for (var i = 0; i < values; i++)
            {
                Value(query.Append(i > 0 ? "," : ""), dice);
            }

            query.Append('&');
        }

        if (dice.Once(2_000))
        {
            query.Append('a', 60_000);
        }

        var bytes = Encoding.UTF8.GetBytes(query.ToString());
        return dice.Once(8) ? ByteMutator.Mutate(bytes, dice) : bytes;
    }

    private static void Name(StringBuilder query, Dice dice)
    {
        for (var links = dice.Once(6) ? 1 + dice.Next(5) : 0; links > 0; links--)
        {
            query.Append(dice.Once(4) ? "_has:Observation:subject:" : dice.OneOf(Links) + ".");
        }

        query.Append(dice.OneOf(Names)).Append(dice.OneOf(Modifiers));
    }

    private static void Value(StringBuilder query, Dice dice)
    {
        query.Append(dice.OneOf(Prefixes)).Append(dice.Next(3) switch
        {
            0 => Uri.EscapeDataString(dice.OneOf(Edges.Dates)),
            1 => dice.OneOf(Edges.Numbers),
            _ => dice.OneOf(Values),
        });
    }
}
