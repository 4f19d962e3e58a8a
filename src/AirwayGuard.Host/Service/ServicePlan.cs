using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Text;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.SignOffs;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Host.Commands;
using AirwayGuard.Host.Service.CdsHooks;
using AirwayGuard.Worker.Judging;

namespace AirwayGuard.Host.Service;

/// <summary>What a start of the service comes to, worked out and checked before anything is opened.</summary>
/// <param name="Listen">Our own address, ending in a slash.</param>
/// <param name="FhirBase">Without a slash at its end, however it was given, but for a server at the root of its address.</param>
/// <param name="IsDemo">No server is configured: the sandbox plays it.</param>
internal sealed record ServicePlan(
    Uri Listen, bool IsDemo, Uri FhirBase, string DataFolder, ServiceBasis Basis, CodeMap Map, ServiceOptions Options)
{
    /// <summary>Who may ask at order entry.</summary>
    public CdsHooksOptions Hooks { get; init; } = new();

    public const string DefaultListen = "http://127.0.0.1:8480";

    /// <returns>Null with what is wrong.</returns>
    public static (ServicePlan? Plan, IReadOnlyList<Problem> Problems) Of(IConfiguration configuration)
    {
        var problems = ServiceSettings.ProblemsOf(configuration).ToList();
        if (problems.Count > 0)
        {
            return (null, problems);
        }

        var options = configuration.GetSection(ServiceOptions.Section).Get<ServiceOptions>() ?? new ServiceOptions();
        var listen = ListenOf(configuration, options, problems);
        var server = configuration["AirwayGuard:Fhir:BaseUrl"];
        var remote = string.IsNullOrWhiteSpace(server) ? null : new Uri(new Uri(server, UriKind.Absolute).AbsoluteUri.TrimEnd('/'), UriKind.Absolute);

        if (remote is not null && string.IsNullOrWhiteSpace(options.DataDirectory))
        {
            problems.Add(new Problem(Codes.OptionInvalid, "AirwayGuard:DataDirectory", "a folder for the ledger is needed with a server of your own"));
        }

        var isDemo = string.IsNullOrWhiteSpace(server);
        var map = MapOf(options, isDemo, problems);
        var rules = ConfiguredFiles.Rules(options.Rules);
        foreach (var fault in rules.Faults)
        {
            problems.Add(new Problem(fault.Code, fault.Line == 0 ? fault.File : string.Create(CultureInfo.InvariantCulture, $"{fault.File}:{fault.Line}:{fault.Column}"), fault.What));
        }

        if (problems.Count > 0 || listen is null || map is null || rules.RuleSet is null)
        {
            return (null, problems);
        }

        var basis = BasisOf(rules.RuleSet, new RuleDocument(rules.RuleSet.Sha256, rules.Document), isDemo ? SignedOff.All : SignedOff.None, map, options);
        return (new ServicePlan(listen, isDemo, remote ?? new Uri(listen, "fhir"), FolderOf(options, listen), basis, map, options)
        {
            Hooks = configuration.GetSection(CdsHooksOptions.Section).Get<CdsHooksOptions>() ?? new CdsHooksOptions(),
        }, []);
    }

    private static Uri? ListenOf(IConfiguration configuration, ServiceOptions options, List<Problem> problems)
    {
        var text = configuration["urls"] ?? configuration["ASPNETCORE_URLS"] ?? DefaultListen;
        if (!Uri.TryCreate(text.TrimEnd('/') + "/", UriKind.Absolute, out var listen) || listen.Scheme is not ("http" or "https"))
        {
            problems.Add(new Problem(Codes.OptionInvalid, "--urls", "it takes one http or https address, such as http://127.0.0.1:8480"));
            return null;
        }

        var isLoopback = listen.Host == "localhost" || (IPAddress.TryParse(listen.Host.Trim('[', ']'), out var address) && IPAddress.IsLoopback(address));
        if (!isLoopback && !options.AllowOtherAddresses)
        {
            problems.Add(new Problem(Codes.AddressNotLoopback, "--urls", "nothing here asks who is calling, so only loopback addresses are answered"));
            return null;
        }

        return listen;
    }

    private static CodeMap? MapOf(ServiceOptions options, bool isDemo, List<Problem> problems)
    {
        var sources = new List<MapSource> { ShippedMaps.Standard };
        if (isDemo)
        {
            sources.Add(ShippedMaps.DemoRows);
        }

        foreach (var file in options.Maps)
        {
            var (source, problem) = ConfiguredFiles.Map(file);
            if (source is null)
            {
                problems.Add(problem!);
                return null;
            }

            sources.Add(source);
        }

        var loaded = CodeMap.Load([.. sources]);
        problems.AddRange(loaded.Faults);
        return loaded.Map;
    }

    /// <summary>The same with other rules, or other checks of them speaking.</summary>
    public ServiceBasis BasisWith(RuleSet rules, RuleDocument? document, SignedOff signedOff) => BasisOf(rules, document, signedOff, Map, Options);

    // Nothing of a server's own speaks unless a named person signed it off; the demo speaks unasked.
    private static ServiceBasis BasisOf(RuleSet rules, RuleDocument? document, SignedOff signedOff, CodeMap map, ServiceOptions options)
    {
        var live = options.Mode != "silent";
        var newFor = options.NewForHours is { } hours ? TimeSpan.FromHours(hours) : TimeSpan.MaxValue;
        var reader = new FhirArrivalReader(map).Version;
        var whole = $"{rules.Sha256}|{map.Sha256}|{options.UnknownAge}|{options.LateAfterMinutes}|{newFor.Ticks}|{options.SiteVersion}|{reader}|{live}|{signedOff.Canonical()}";
        var sha = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(whole)));
        var software = typeof(ServicePlan).Assembly.GetName().Version?.ToString(3) ?? "0";
        return new ServiceBasis(
            rules, live, options.UnknownAge == "strictest-band" ? UnknownAge.StrictestBand : UnknownAge.CannotTell, TimeSpan.FromMinutes(options.LateAfterMinutes),
            new MessageBasis(rules.Name, rules.Version, rules.Sha256, sha, software, options.SiteVersion))
        {
            NewFor = newFor,
            Document = document,
            SignedOff = signedOff,
        };
    }

    private static string FolderOf(ServiceOptions options, Uri listen) =>
        string.IsNullOrWhiteSpace(options.DataDirectory)
            ? Path.Combine(
                Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify) is { Length: > 0 } home ? home : Path.GetTempPath(),
                "airwayguard", string.Create(CultureInfo.InvariantCulture, $"demo-{listen.Port}"))
            : options.DataDirectory;
}
