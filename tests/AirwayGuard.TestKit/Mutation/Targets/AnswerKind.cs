using System.Text.Unicode;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Client;
using AirwayGuard.Fhir.Intake;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.TestKit.Mutation.Mutators;

namespace AirwayGuard.TestKit.Mutation.Targets;

/// <summary>Answers of servers through whatever of the client asked: a sweep, a search, a read, a Subscription.</summary>
internal sealed class AnswerKind : MutationKind, IDisposable
{
    private static readonly SweepQuery[] Queries =
    [
        new("rows", "Observation", [new SweepCode("https://airwayguard.example.org/fhir/CodeSystem/airway-care", "vacuum-pressure")]) { ReadsComponents = true },
        new("gone", "Observation", []) { AsksDeletions = true },
        new("patients", "Patient", []),
    ];

    private static readonly Uri Endpoint = new("http://127.0.0.1:8480/notify/rows");
    private static readonly FhirGate Gate = new(new Uri("http://sandbox.test/fhir"), []);

    private readonly JsonInput[] _inputs;
    private readonly StubServer _server = new();
    private readonly HttpClient _http;
    private readonly SetClock _clock = new(new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero));

    public AnswerKind(JsonInput[] inputs)
    {
        _inputs = inputs;
        _http = new HttpClient(_server) { Timeout = Timeout.InfiniteTimeSpan };
    }

    public override string Name => "answer";

    public override long BaseWork => 1024 * 1024;

    public override long WorkPerByte => 400;

    public void Dispose() => _http.Dispose();

    public override byte[] Draw(Dice dice) => JsonMutator.Mutate(_inputs, dice);

    public override string? Try(byte[] input, Dice dice)
    {
        (_server.BodyOf, _server.Dice, _server.Requests) = (_ => input, dice, 0);
        switch (dice.Next(5))
        {
            case 0 or 1:
                return Sweep(input, dice);
            case 2:
                var fhir = new FhirHttp(_http, Gate, _clock);
                var answer = dice.Once(2)
                    ? Ended(() => fhir.FindAsync("Flag", "urn:a", "b", CancellationToken.None)).Answer
                    : Ended(() => fhir.ReadAsync("Flag", "f1", CancellationToken.None));
                return answer.IsDone == (answer.Code is not null) ? "An answer is neither done nor told under a code." : null;
            case 3:
                Ended(() => new SubscriptionClient(_http, Gate).FindAsync(Endpoint, CancellationToken.None));
                return null;
            default:
                var client = new SubscriptionClient(_http, Gate);
                Ended(() => client.StateAsync("s1", CancellationToken.None));
                Ended(() => client.CreateAsync("Observation?code=a", Endpoint, "token", "requested", CancellationToken.None));
                return null;
        }
    }

    private string? Sweep(byte[] input, Dice dice)
    {
        var source = new FhirArrivalSource(_http, Gate, Queries, 3, _clock);
        var name = dice.OneOf(Queries).Name;
        string? next = null;
        for (var pages = 0; pages < 3; pages++)
        {
            var (asked, since) = (next, dice.Once(2) ? _clock.Now : (DateTimeOffset?)null);
            var page = Ended(async () => await source.PageAsync(name, since, asked, CancellationToken.None));
            if (page.Problem is not null)
            {
                return page.Arrivals.Count > 0 ? "A page that is trouble holds something." : ReadingFaults.Quoted([page.Problem]);
            }

            // Bytes that are no UTF-8 are told with the row they stand in, and hide no other.
            if (Utf8.IsValid(input) && !ReadingFaults.IsJson(input))
            {
                return "An answer that is no JSON counts as a page.";
            }

            if (ReadingFaults.Quoted(page.Unusable) is { } quoted)
            {
                return quoted;
            }

            next = page.Next;
            if (next is null)
            {
                break;
            }
        }

        return null;
    }
}
