using System.CommandLine;
using AirwayGuard.Rules;

namespace AirwayGuard.Host.Commands;

/// <summary><c>rules list</c>, <c>rules show ID</c>, <c>rules lint FILE</c>, <c>rules test RULES</c>; the rest have files of their own.</summary>
internal static class RulesCommand
{
    public static Command Build(TextWriter output, TextWriter errors)
    {
        var rules = new Command("rules", "Shows and checks rule sets.");
        rules.Subcommands.Add(List(output, errors));
        rules.Subcommands.Add(Show(output, errors));
        rules.Subcommands.Add(Lint(output));
        rules.Subcommands.Add(Test(output, errors));
        rules.Subcommands.Add(RulesCompareCommand.Build(output, errors));
        rules.Subcommands.Add(RulesSchemaCommand.Build(output));
        SignOffCommands.AddTo(rules, output, errors);
        return rules;
    }

    internal static Option<string> RulesOption() => new("--rules")
    {
        Description = "A shipped rule set or a file.",
        DefaultValueFactory = _ => ShippedRuleSets.Default,
    };

    private static Command List(TextWriter output, TextWriter errors)
    {
        var option = RulesOption();
        var list = new Command("list", "Lists the checks of a rule set.") { option };
        list.SetAction(parsed => RulesList.Write(ConfiguredFiles.Rules(parsed.GetValue(option)!), output, errors));
        return list;
    }

    private static Command Show(TextWriter output, TextWriter errors)
    {
        var id = new Argument<string>("ID") { Description = "A check's id, such as vacuum-above-ceiling." };
        var option = RulesOption();
        var show = new Command("show", "Shows one check: limits per band with source and status, and what clears it.") { id, option };
        show.SetAction(parsed => RulesPage.Write(ConfiguredFiles.Rules(parsed.GetValue(option)!), parsed.GetValue(id)!, output, errors));
        return show;
    }

    private static Command Lint(TextWriter output)
    {
        var file = new Argument<string>("FILE") { Description = "A rule-set document, or the name of a shipped one." };
        var lint = new Command("lint", "Lists every fault of a rule-set document at once.") { file };
        lint.SetAction(parsed => RulesLint.Report(ConfiguredFiles.Rules(parsed.GetValue(file)!), output));
        return lint;
    }

    private static Command Test(TextWriter output, TextWriter errors)
    {
        var set = new Argument<string>("RULES") { Description = "A rule-set document with its cases beside it, or the name of a shipped one." };
        var cases = new Option<string[]>("--cases") { Description = "A file of cases, instead of NAME.cases.yaml or the folder NAME.cases beside the document. May be given more than once.", DefaultValueFactory = _ => [] };
        var prove = new Option<bool>("--prove") { Description = "Also changes each limit, comparison and severity a little, one at a time, and names every change that no case notices." };
        var test = new Command("test", "Judges the cases beside a rule set by it, and prints what differs from what they expect.") { set, cases, prove };
        test.SetAction(parsed => RulesTest.Run(ConfiguredFiles.Rules(parsed.GetValue(set)!), parsed.GetValue(cases)!, parsed.GetValue(prove), output, errors));
        return test;
    }
}
