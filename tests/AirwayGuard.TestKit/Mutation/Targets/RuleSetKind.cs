using System.Text;
using AirwayGuard.Rules;
using AirwayGuard.TestKit.Mutation.Mutators;

namespace AirwayGuard.TestKit.Mutation.Targets;

/// <summary>Rule sets through the lint: the shipped ones, mostly cut down to a few rules.</summary>
internal sealed class RuleSetKind : MutationKind
{
    private static readonly string[][] Documents = [.. ShippedRuleSets.Names.SelectMany(Cut)];

    public override string Name => "rule set";

    public override string Ending => "yaml";

    public override long BaseWork => 1024 * 1024;

    public override long WorkPerByte => 600;

    public override byte[] Draw(Dice dice) => YamlMutator.Mutate(Documents, dice);

    public override string? Try(byte[] input, Dice dice)
    {
        using var output = new StringWriter();
        var reading = RuleSetReader.Read(input, "input.yaml");
        var exit = RulesLint.Report(reading, output);
        return (exit, reading.RuleSet, reading.Faults.Count) switch
        {
            (RulesLint.Clean, not null, 0) or (RulesLint.HasFaults, null, > 0) => null,
            _ => "A rule set is neither read nor refused.",
        };
    }

    // The whole once in a hundred: it takes a hundred times as long as one rule.
    private static IEnumerable<string[]> Cut(string name)
    {
        var lines = Encoding.UTF8.GetString(ShippedRuleSets.Bytes(name).Span).Split('\n');
        var head = Array.IndexOf(lines, "rules:") + 1;
        var starts = Enumerable.Range(head, lines.Length - head).Where(at => lines[at].StartsWith("  - id:", StringComparison.Ordinal)).Append(lines.Length).ToArray();
        yield return lines;
        for (var i = 0; i + 1 < starts.Length; i++)
        {
            yield return [.. lines[..head].Where(line => !line.StartsWith('#')), .. lines[starts[i]..starts[i + 1]]];
        }
    }
}
