using System.Text.Json;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Client;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>
/// Writes findings to a FHIR server: DetectedIssue, Flag, their Provenance and the author Device. Each message may be sent any
/// number of times; it leaves one resource, and one Provenance per version. Safe for concurrent use with different keys.
/// </summary>
public sealed class FhirSink : ISink, IDisposable
{
    private readonly AuthorWriter _author;
    private readonly Func<Guid, CancellationToken, ValueTask<ServerVersion?>>? _known;
    private readonly IssueLinks _links;
    private readonly ResourceWriter _writer;

    /// <param name="known">Where a message of a key was last confirmed (<c>ILedger.LastSentAsync</c>); null to always search.</param>
    /// <param name="clock">For Provenance.recorded, and to know when a claim has run out.</param>
    public FhirSink(FhirHttp http, FhirSinkOptions options, TimeProvider clock, Func<Guid, CancellationToken, ValueTask<ServerVersion?>>? known = null)
    {
        ArgumentNullException.ThrowIfNull(http);
        ArgumentNullException.ThrowIfNull(options);
        _author = new AuthorWriter(http, options);
        _known = known;
        _links = new IssueLinks(http, known);
        _writer = new ResourceWriter(http, new ProvenanceWriter(http, options, clock), options, clock);
    }

    /// <inheritdoc />
    public bool Takes(string kind) => kind is MessageJson.Issue or MessageJson.Flag;

    /// <inheritdoc />
    public async ValueTask<SinkAnswer> SendAsync(Outgoing outgoing, ServerVersion? last, DateTimeOffset until, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(outgoing);
        try
        {
            var result = outgoing.Kind switch
            {
                MessageJson.Issue => await SendAsync(MessageJson.ReadIssue(outgoing.Content), last, until, stop),
                MessageJson.Flag => await SendAsync(MessageJson.ReadFlag(outgoing.Content), last, until, stop),
                _ => WriteResult.Parked(last, Codes.NoSink),
            };
            if (result.State == SendState.Parked)
            {
                _author.Forget();
            }

            return result.ToAnswer();
        }
        catch (JsonException)
        {
            return WriteResult.Parked(last, Codes.MessageUnreadable).ToAnswer();
        }
    }

    public void Dispose() => _author.Dispose();

    private async Task<WriteResult> SendAsync(IssueMessage message, ServerVersion? last, DateTimeOffset until, CancellationToken stop)
    {
        var (author, trouble) = await _author.EnsureAsync(message.Basis, stop);
        if (author is null)
        {
            return trouble! with { Server = last };
        }

        var result = await _writer.SendAsync(new IssueTarget(message, author) { Until = until }, last, author, stop);
        if (result is { State: SendState.Confirmed, Server: { } server })
        {
            _links.Remember(message.Key, server.Id);
        }

        return result;
    }

    private async Task<WriteResult> SendAsync(FlagMessage message, ServerVersion? last, DateTimeOffset until, CancellationToken stop)
    {
        if (!FlagBuilder.MayStandOn(message.Subject))
        {
            return WriteResult.Parked(last, Codes.SubjectNotAllowed);
        }

        var (author, trouble) = await _author.EnsureAsync(message.Basis, stop);
        if (author is null)
        {
            return trouble! with { Server = last };
        }

        var (links, open) = await _links.ResolveAsync(message.Issues, message.Subject, last, stop);
        // What a sweep met while the links were asked for is made, and if a person deleted it since it stays deleted.
        last ??= open is null && _known is not null ? await _known(message.Key, stop) : null;
        return open ?? await _writer.SendAsync(new FlagTarget(message, author, links) { Until = until }, last, author, stop);
    }
}
