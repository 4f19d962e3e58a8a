using System.Text.Json;
using AirwayGuard.Host.Tests.Scenarios;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

public sealed class RulesSchemaCommandTests
{
    [Fact]
    public async Task SchemaPrintsWhatAnEditorReads()
    {
        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(["rules", "schema"]);

        Assert.Equal(0, exit);
        Assert.Empty(stderr);
        using var schema = JsonDocument.Parse(stdout);
        Assert.Equal("https://json-schema.org/draft/2020-12/schema", schema.RootElement.GetProperty("$schema").GetString());
    }

    [Fact]
    public async Task SchemaTakesNoArgument() => Assert.Equal(64, (await InProcessCheck.RunAsync(["rules", "schema", "strict-ranges"])).Exit);
}
