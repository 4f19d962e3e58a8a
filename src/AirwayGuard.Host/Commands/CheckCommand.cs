using System.CommandLine;
using AirwayGuard.Core.Judging;
using AirwayGuard.Worker.Checking;

namespace AirwayGuard.Host.Commands;

/// <summary><c>check PATH…</c>: judges FHIR JSON and writes nothing back.</summary>
internal static class CheckCommand
{
    public static Command Build(TextWriter output, TextWriter errors)
    {
        var paths = new Argument<string[]>("PATH") { Description = "Files of FHIR JSON or NDJSON, folders of them, or - for standard input.", Arity = ArgumentArity.OneOrMore };
        paths.RefuseOptions("check");
        var rules = RulesCommand.RulesOption();
        var asOf = new Option<string?>("--as-of") { Description = "Judge as of this time (ISO 8601 with offset); what begins later is left out." };
        var unknownAge = new Option<string>("--unknown-age") { Description = "cannot-tell (default) or strictest-band.", DefaultValueFactory = _ => "cannot-tell" };
        unknownAge.Only("cannot-tell", "strictest-band");
        var format = new Option<string>("--format") { Description = "text (default), json or fhir.", DefaultValueFactory = _ => "text" };
        format.Only("text", "json", "fhir");
        var maps = new Option<string[]>("--map") { Description = "A site's ConceptMap (FHIR JSON) besides the shipped ones; may be given several times." };
        var ledger = new Option<string?>("--ledger") { Description = "Run through a ledger kept in this new or empty folder; prints the same." };
        var check = new Command("check", "Judges FHIR JSON and prints what it finds; nothing is written back.") { paths, rules, asOf, unknownAge, format, maps, ledger };
        check.SetAction(async (parsed, stop) =>
        {
            DateTimeOffset? judgedAt = null;
            if (parsed.GetValue(asOf) is { } text)
            {
                if (!AsOfTime.TryRead(text, out var time))
                {
                    await errors.WriteLineAsync(ProblemLine.Of(AsOfTime.Unreadable("check")));
                    return ExitCodes.Usage;
                }

                judgedAt = time;
            }

            var request = new CheckRequest(
                parsed.GetValue(paths)!, parsed.GetValue(rules)!, parsed.GetValue(format)!, parsed.GetValue(maps) ?? [], parsed.GetValue(ledger),
                new CheckSettings(judgedAt, parsed.GetValue(unknownAge) == "strictest-band" ? UnknownAge.StrictestBand : UnknownAge.CannotTell));
            return await CheckVerb.RunAsync(request, output, errors, stop);
        });
        return check;
    }
}
