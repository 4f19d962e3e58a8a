using System.Globalization;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Anchoring;
using AirwayGuard.Fhir.Client;
using AirwayGuard.Rules.Reading;
using Microsoft.Extensions.Options;

namespace AirwayGuard.Host.Commands;

/// <summary>Anchors kept outside the ledger: in a file of log lines, or as AuditEvents on a FHIR server.</summary>
internal static class AuditAnchors
{
    private const int HashLength = 64;

    /// <returns>The heads, or why they cannot be had.</returns>
    public static async Task<(IReadOnlyList<AuditHead>? Heads, Problem? Problem)> ReadAsync(string fileOrAddress, CancellationToken stop)
    {
        if (Uri.TryCreate(fileOrAddress, UriKind.Absolute, out var address) && address.Scheme is "http" or "https")
        {
            return await OnServerAsync(address, stop);
        }

        return FileKinds.Of(fileOrAddress) switch
        {
            FileKind.Missing => (null, new Problem(Codes.AnchorsMissing, "--anchors", Directory.Exists(fileOrAddress) ? "it is a folder" : "there is no such file")),
            // Taken for no anchors at all, a wrong file would leave the trail unvouched without a word.
            FileKind.Regular => InLines(await File.ReadAllLinesAsync(fileOrAddress, stop)) is { Count: > 0 } heads
                ? (heads, null)
                : (null, new Problem(Codes.AnchorsMissing, "--anchors", "no line of the file holds an anchor")),
            _ => (null, new Problem(Codes.NotARegularFile, "--anchors", "it is no regular file")),
        };
    }

    private static async Task<(IReadOnlyList<AuditHead>? Heads, Problem? Problem)> OnServerAsync(Uri address, CancellationToken stop)
    {
        var services = new ServiceCollection();
        services.AddLogging();
        services.AddSingleton(SystemClock.Instance);
        services.AddAirwayGuardFhirClient(options => options.BaseUrl = address);
        await using var provider = services.BuildServiceProvider();
        try
        {
            var (heads, code) = await new AuditAnchorStore(provider.GetRequiredService<FhirHttp>()).ReadAsync(stop);
            return heads is null ? (null, new Problem(Codes.AnchorsUnread, "--anchors", $"the search of AuditEvent met {code?.Id}")) : (heads, null);
        }
        catch (OptionsValidationException refused)
        {
            return (null, new Problem(Codes.OptionInvalid, "--anchors", string.Join(' ', refused.Failures)));
        }
    }

    // "… chain 1 entry 78 hash 3379…": whatever else a log writes on the line, in either form, does not matter.
    private static List<AuditHead> InLines(IEnumerable<string> lines)
    {
        var heads = new List<AuditHead>();
        foreach (var line in lines)
        {
            var words = line.Split([' ', '"', ','], StringSplitOptions.RemoveEmptyEntries);
            var at = Array.IndexOf(words, "chain");
            if (at >= 0 && at + 5 < words.Length && words[at + 2] == "entry" && words[at + 4] == "hash" && words[at + 5].Length == HashLength
                && long.TryParse(words[at + 1], CultureInfo.InvariantCulture, out var chain) && long.TryParse(words[at + 3], CultureInfo.InvariantCulture, out var number))
            {
                heads.Add(new AuditHead(chain, number, words[at + 5]));
            }
        }

        return heads;
    }
}
