using System.CommandLine;
using System.CommandLine.Parsing;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Host.Commands;

/// <summary>What is wrong with a command line, in our words: the library's differ by the machine's language and name types of the program.</summary>
internal static class UsageProblems
{
    private const int LongestQuote = 40;

    public static IReadOnlyList<Problem> Of(ParseResult parsed)
    {
        var command = parsed.CommandResult;
        var verb = VerbOf(command);
        if (command.Command.Subcommands.Count > 0)
        {
            var known = string.Join(", ", command.Command.Subcommands.Select(one => one.Name));
            // What follows a verb that is not known cannot be judged.
            return [Wrong(verb, parsed.UnmatchedTokens is [var first, ..] ? $"{Quote(first)} is none of its verbs: {known}" : $"one of its verbs is missing: {known}")];
        }

        return
        [
            .. parsed.UnmatchedTokens.Select(token => Wrong(verb, $"{Quote(token)} is more than it takes")),
            .. parsed.Errors.Where(error => error.SymbolResult is not CommandResult).Select(error => Of(error, verb)),
        ];
    }

    private static Problem Of(ParseError error, string verb) => error.SymbolResult switch
    {
        OptionResult { Implicit: true } option => Wrong($"{verb} {option.Option.Name}", "the option is missing"),
        OptionResult { Tokens.Count: 0 } option => Wrong($"{verb} {option.Option.Name}", "its value is missing"),
        OptionResult { IdentifierTokenCount: > 1 } option when option.Option.Arity.MaximumNumberOfValues == 1 => Wrong($"{verb} {option.Option.Name}", "it is given more than once"),
        OptionResult option => Wrong($"{verb} {option.Option.Name}", error.Message),
        ArgumentResult { Tokens.Count: 0 } argument => Wrong($"{verb} {argument.Argument.Name}", "it is missing"),
        ArgumentResult argument when argument.Argument.ValueType == typeof(long) => Wrong($"{verb} {argument.Argument.Name}", $"{Quote(argument.Tokens[0].Value)} is no whole number, or too large"),
        ArgumentResult argument => Wrong($"{verb} {argument.Argument.Name}", error.Message),
        _ => Wrong(verb, error.Message),
    };

    private static string VerbOf(CommandResult command)
    {
        var names = new Stack<string>();
        for (SymbolResult? at = command; at is CommandResult { Command: not RootCommand } verb; at = verb.Parent)
        {
            names.Push(verb.Command.Name);
        }

        return names.Count == 0 ? "airwayguard" : string.Join(' ', names);
    }

    private static Problem Wrong(string where, string why) => new(Codes.UsageWrong, where, why);

    private static string Quote(string word)
    {
        var line = string.Concat(word.Select(one => char.IsControl(one) ? ' ' : one));
        return line.Length <= LongestQuote ? $"'{line}'" : $"'{line[..LongestQuote]}…'";
    }
}
