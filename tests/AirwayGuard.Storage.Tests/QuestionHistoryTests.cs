using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.TestKit.Histories;
using AirwayGuard.TestKit.Ledger;
using Xunit;
using Charted = AirwayGuard.TestKit.Ledger.Charted;

namespace AirwayGuard.Storage.Tests;

/// <summary>On random histories, what is loaded for a question is what its scope says of the whole chart, at each position.</summary>
public sealed class QuestionHistoryTests
{
    private const int Seeds = 25;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public static TheoryData<int> Blocks => [0, 1, 2, 3];

    [Theory]
    [MemberData(nameof(Blocks))]
    public async Task What_is_loaded_for_a_question_is_the_part_of_the_whole_chart_that_its_scope_names(int block)
    {
        var (facts, links) = (0, 0);
        for (var seed = block * Seeds; seed < (block + 1) * Seeds; seed++)
        {
            using var folder = new TestFolder();
            await using var ledger = await SqliteLedger.OpenAsync(folder.Path, new SqliteLedgerOptions { WaitsForDisk = false }, new SetClock(Charted.Morning));
            var random = new Random(seed);
            var newest = await KeepAsync(ledger, seed, random);
            foreach (var at in new[] { 1L << 62, newest, random.NextInt64(1, newest + 1), random.NextInt64(1, newest + 1) })
            {
                var (some, named) = await SameAsync(ledger, seed, random, new Position(at));
                facts += some;
                links += named;
            }
        }

        // Histories prove something only where something is left in and something out.
        Assert.InRange(facts, Seeds * 20, int.MaxValue);
        Assert.InRange(links, 5, int.MaxValue);
    }

    [Theory]
    [MemberData(nameof(Blocks))]
    public async Task What_is_asked_again_after_each_commit_is_what_the_file_says_then(int block)
    {
        var (held, changed) = (0, 0);
        for (var seed = block * Seeds; seed < (block + 1) * Seeds; seed++)
        {
            using var folder = new TestFolder();
            await using var ledger = await SqliteLedger.OpenAsync(folder.Path, new SqliteLedgerOptions { WaitsForDisk = false }, new SetClock(Charted.Morning));
            using var file = Sql.Database.OpenReader(Path.Combine(folder.Path, "ledger.db"));
            var random = new Random(seed);
            QuestionScope[] scopes = [new([.. Enumerable.Range(0, Concepts.Count).Select(i => new Concept((ushort)i))], [], TimeRange.All), new([], [Concepts.VacuumPressure, Concepts.TubeInnerDiameter], TimeRange.All)];
            var (subjects, before) = ((string[])["Patient/p1", "Patient/other"], new Dictionary<(string, int), string>());
            await KeepAsync(ledger, seed, random, async () =>
            {
                foreach (var (subject, i) in subjects.SelectMany(subject => scopes.Select((_, i) => (subject, i))))
                {
                    var patient = ledger.Intern(subject);
                    using var asked = await ledger.LoadAsync(patient, scopes[i], FarAhead, Stop);
                    using var said = Reading.QuestionLoader.Load(file, patient, scopes[i], FarAhead, new HashSet<Entity>());
                    Assert.True(said.View.Facts.SequenceEqual(asked.View.Facts) && said.View.Links.SequenceEqual(asked.View.Links), $"seed {seed}: {subject} differs in scope {i}.");
                    var told = string.Join(' ', asked.View.Facts.ToArray().Select(fact => fact.Id));
                    held += before.TryGetValue((subject, i), out var last) && last == told ? 1 : 0;
                    changed += last is not null && last != told ? 1 : 0;
                    before[(subject, i)] = told;
                    var version = await ledger.StandingVersionAsync(patient, Stop);
                    Assert.Equal(Reading.StandingReader.VersionOf(file, patient), version);
                }
            });
        }

        // It proves something only where some commits touch a chart and some do not.
        Assert.InRange(held, 20, int.MaxValue);
        Assert.InRange(changed, 100, int.MaxValue);
    }

    private static readonly Position FarAhead = new(1L << 62);

    private static async Task<(int Facts, int Named)> SameAsync(SqliteLedger ledger, int seed, Random random, Position at)
    {
        var patient = ledger.Intern("Patient/p1");
        using var whole = await ledger.LoadAsync(patient, TimeRange.All, at, Stop);
        var scope = Draw(random, whole);
        using var asked = await ledger.LoadAsync(patient, scope, at, Stop);
        var (expected, links) = Expected(patient, whole, scope);
        var loaded = asked.View;
        Assert.True(expected.SequenceEqual(loaded.Facts.ToArray()), $"seed {seed}, position {at.Value}: {expected.Length} facts expected, {loaded.Facts.Length} loaded");
        Assert.True(links.SequenceEqual(loaded.Links.ToArray()), $"seed {seed}, position {at.Value}: {links.Length} links expected, {loaded.Links.Length} loaded");
        foreach (ref readonly var fact in loaded.Facts)
        {
            Assert.Contains(fact, loaded.Of(fact.Concept).ToArray());
        }

        return (expected.Length, links.Count(link => link.Kind == LinkKind.NamedWith));
    }

    // The definition, applied to everything that is known.
    private static (Fact[] Facts, Link[] Links) Expected(Entity patient, TimelineLease whole, QuestionScope scope)
    {
        var window = scope.Window;
        var view = whole.View;
        var source = new LinksBetween([.. view.Links.ToArray().Where(link => Reaches(link.From) && Reaches(link.To))]);
        var (entities, touched) = (new HashSet<Entity>(), new List<Link>());
        Scope.OfPatient(patient, source, entities, touched);
        var known = view.Facts.ToArray();
        Fact[] facts = [.. known.Where(fact => entities.Contains(fact.About) && (scope.Always.Contains(fact.Concept) ? fact.About != patient || IsSaidSince(fact, known, scope.Since) : (scope.Recent.Contains(fact.Concept) && IsRecent(fact, window))))];
        var named = touched.Where(link => link.Kind == LinkKind.NamedWith).ToLookup(link => link.ToTime > window.From && link.FromTime <= window.To);
        var otherwise = named[false].Where(link => link.To == patient && !named[true].Any(one => (one.From, one.To) == (link.From, link.To)))
            .GroupBy(link => link.From).Select(of => of.OrderBy(link => link.ToTime).ThenBy(link => link.Id.Arrival).Last());
        Link[] links = [.. touched.Where(link => link.Kind != LinkKind.NamedWith), .. named[true], .. otherwise];
        return (facts, [.. links.Order(Comparer<Link>.Create(Reading.TimelineLoader.ByArrival))]);
    }

    private static bool IsRecent(in Fact fact, TimeRange window) =>
        fact.EffectiveFrom == long.MinValue
        || (fact.EffectiveFrom >= window.From && fact.EffectiveFrom <= window.To)
        || (fact.EffectiveFrom < window.From && fact.EffectiveTo >= window.From && fact.EffectiveTo > fact.EffectiveFrom);

    // Before a time, what was charted last of the patient's concept, and what reaches beyond.
    private static bool IsSaidSince(Fact fact, Fact[] all, long since) =>
        IsRecent(fact, new TimeRange(since, long.MaxValue))
        || fact.EffectiveFrom == all.Where(one => one.About == fact.About && one.Concept == fact.Concept && one.EffectiveFrom < since).Max(one => one.EffectiveFrom);

    private static bool Reaches(Entity entity) =>
        entity.Kind is EntityKind.Patient or EntityKind.Encounter or EntityKind.Place or EntityKind.Device or EntityKind.Metric or EntityKind.Statement;

    private static QuestionScope Draw(Random random, TimelineLease whole)
    {
        var concepts = Enumerable.Range(0, Concepts.Count).Select(i => new Concept((ushort)i)).ToArray();
        random.Shuffle(concepts);
        var times = whole.View.Facts.ToArray().SelectMany(fact => new[] { fact.EffectiveFrom, fact.EffectiveTo }).Append(0).ToArray();
        var (one, other) = (times[random.Next(times.Length)] + random.Next(-1, 2), times[random.Next(times.Length)]);
        var window = random.Next(10) == 0 ? TimeRange.All : new TimeRange(Math.Min(one, other), Math.Max(one, other));
        var always = random.Next(0, Concepts.Count);
        return new QuestionScope([.. concepts[..always]], [.. concepts[Math.Max(0, always - 2)..random.Next(always, Concepts.Count)]], window)
        {
            Since = random.Next(2) == 0 ? long.MinValue : times[random.Next(times.Length)] + random.Next(-1, 2),
        };
    }

    // As a server tells it: in any order, some of it corrected or deleted afterwards, at a bed that another patient lay in.
    private static async Task<long> KeepAsync(SqliteLedger ledger, int seed, Random random, Func<Task>? afterEach = null)
    {
        var rows = HistoryRenderer.Render(HistoryGenerator.Next(seed)).Select(Encoding.UTF8.GetBytes).ToArray();
        random.Shuffle(rows);
        var (reader, versions) = (new FhirArrivalReader(ShippedMaps.WithDemoRows), new Dictionary<string, int>(StringComparer.Ordinal));
        var arrivals = rows.Select(row => Read(row, false)).ToList();
        var devices = arrivals.Where(arrival => arrival.Arrival.Type == "Device").Select(arrival => "Device/" + arrival.Arrival.Id);
        var stays = arrivals.Where(arrival => arrival.Arrival.Type == "Encounter").Select(arrival => "Encounter/" + arrival.Arrival.Id);
        arrivals.Add(Charted.Linking(ledger, "Statement/bed", "1", 0, [
            .. stays.Select(stay => (LinkKind.TakesPlaceAt, stay, "Location/bed")), .. devices.Where(_ => random.Next(2) == 0).Select(device => (LinkKind.StandsAt, device, "Location/bed")),
            (LinkKind.TakesPlaceAt, "Encounter/other", "Location/bed"), (LinkKind.EncounterOf, "Encounter/other", "Patient/other")]));
        arrivals.AddRange(rows.Where(_ => random.Next(10) == 0).Select(row => Read(row, random.Next(2) == 0)));
        foreach (var group in arrivals.Chunk(random.Next(1, 30)))
        {
            await ledger.KeepAsync(group, null, Stop);
            await (afterEach?.Invoke() ?? Task.CompletedTask);
        }

        return (await ledger.StateAsync(Stop)).Newest.Value;

        ReadArrival Read(byte[] row, bool isDeleted)
        {
            using var json = JsonDocument.Parse(row);
            var (type, id) = (json.RootElement.GetProperty("resourceType").GetString()!, json.RootElement.GetProperty("id").GetString()!);
            var version = versions[$"{type}/{id}"] = versions.GetValueOrDefault($"{type}/{id}") + 1;
            var arrival = new Arrival(
                isDeleted ? ArrivalKind.Deletion : ArrivalKind.Resource, "https://ehr.example/fhir", type, id, $"{version}", Charted.Morning.AddMinutes(version), KnownBy.ServersStamp, isDeleted ? default : row);
            var reading = new Core.Ports.Reading();
            reader.Read(arrival, ledger.Entities, reading);
            return new ReadArrival(arrival, reading);
        }
    }

    private sealed class LinksBetween(ImmutableArray<Link> links) : ILinkSource
    {
        public IEnumerable<Link> From(Entity entity) => links.Where(link => link.From == entity);

        public IEnumerable<Link> To(Entity entity) => links.Where(link => link.To == entity);
    }
}
