using System.CommandLine;
using AirwayGuard.Rules;

namespace AirwayGuard.Host.Commands;

/// <summary><c>rules schema</c>.</summary>
internal static class RulesSchemaCommand
{
    public static Command Build(TextWriter output)
    {
        var schema = new Command("schema", "Prints the JSON Schema of rule-set documents, for editors.");
        schema.SetAction(_ =>
        {
            output.Write(RuleSetSchema.Text);
            return ExitCodes.Clean;
        });
        return schema;
    }
}
