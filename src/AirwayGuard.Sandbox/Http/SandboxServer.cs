using System.Globalization;
using AirwayGuard.Sandbox.Documents;
using Microsoft.Data.Sqlite;

namespace AirwayGuard.Sandbox.Http;

/// <summary>Answers FHIR requests from a repository: the one core behind every door.</summary>
public sealed class SandboxServer
{
    private readonly Doors doors;
    private readonly TimeProvider clock;
    private readonly Router router;
    private readonly Bundles bundles;

    /// <summary>A server over <paramref name="repository"/>; its clock gives the Date header.</summary>
    public SandboxServer(SandboxRepository repository, TimeProvider clock)
    {
        Repository = repository;
        this.clock = clock;
        doors = new Doors(repository.Options);
        router = new Router(repository);
        bundles = new Bundles(repository, router);
    }

    /// <summary>The repository it answers from.</summary>
    public SandboxRepository Repository { get; }

    /// <summary>Largest body in bytes that a door need read for a request.</summary>
    public int BodyLimit(string method, string path) => doors.BodyLimit(method, path);

    /// <summary>The answer to a body larger than <see cref="BodyLimit"/>, for doors that stop reading.</summary>
    public SandboxResponse AnswerTooLarge() => Finish(SandboxResponse.Of(Doors.TooLarge(), Repository.Options));

    /// <summary>Answers a request; every refusal is an OperationOutcome.</summary>
    public SandboxResponse Answer(SandboxRequest request)
    {
        SandboxResponse response;
        try
        {
            doors.Check(request);
            response = request.Method == "POST" && request.Path.Trim('/').Length == 0 ? bundles.Answer(request) : router.Answer(request);
        }
        catch (SandboxRefusalException refusal)
        {
            response = SandboxResponse.Of(refusal, Repository.Options);
        }
        catch (SqliteException trouble)
        {
            var failed = string.Create(CultureInfo.InvariantCulture, $"The database did not do its part (SQLite {trouble.SqliteExtendedErrorCode}); nothing was stored.");
            response = SandboxResponse.Of(new SandboxRefusalException(SandboxFault.StoreFailed, 500, "no-store", failed), Repository.Options);
        }

        return Finish(request.Method == "HEAD" ? response.WithoutBody() : response);
    }

    private SandboxResponse Finish(SandboxResponse response)
    {
        // RFC 9110 §6.6.1
        response.Headers["Date"] = clock.GetUtcNow().ToString("R", CultureInfo.InvariantCulture);
        response.Headers["X-Content-Type-Options"] = "nosniff";
        response.Headers["Cache-Control"] = "no-store";
        return response;
    }
}
