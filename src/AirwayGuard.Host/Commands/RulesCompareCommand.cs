using System.CommandLine;
using AirwayGuard.Rules;

namespace AirwayGuard.Host.Commands;

/// <summary><c>rules compare A B</c>.</summary>
internal static class RulesCompareCommand
{
    public static Command Build(TextWriter output, TextWriter errors)
    {
        var from = new Argument<string>("A") { Description = "The rule set in use: a shipped one or a file." };
        var to = new Argument<string>("B") { Description = "The rule set that is to take its place." };
        var format = new Option<string>("--format") { Description = "text (default) or json.", DefaultValueFactory = _ => "text" };
        format.Only("text", "json");
        var compare = new Command("compare", "Tells in clinical words what becomes of each check from one rule set to another.") { from, to, format };
        compare.SetAction(parsed => RulesCompare.Write(
            ConfiguredFiles.Rules(parsed.GetValue(from)!), ConfiguredFiles.Rules(parsed.GetValue(to)!), parsed.GetValue(format) == "json", output, errors));
        return compare;
    }
}
