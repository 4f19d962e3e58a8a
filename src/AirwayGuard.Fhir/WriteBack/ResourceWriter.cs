using System.Collections.Concurrent;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Client;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>
/// Brings one resource to its wanted state by single conditional requests: created once, updated only over
/// a version we left, never over a person's, and never created again after a person deleted it.
/// </summary>
internal sealed class ResourceWriter(FhirHttp http, ProvenanceWriter provenance, FhirSinkOptions options, TimeProvider clock)
{
    private readonly ConcurrentDictionary<Guid, byte> _unsure = new();
    private readonly ResourceFinder _finder = new(http, new ContentDigest(http.Gate));
    private readonly ContentDigest _digest = new(http.Gate);

    /// <param name="last">The version we left, if any was confirmed.</param>
    public async Task<WriteResult> SendAsync(WriteTarget target, ServerVersion? last, ResourceReference author, CancellationToken stop)
    {
        _digest.Stamp(target.Wanted);
        ResourceFinder.Found found;
        if (last is { IsConfirmed: false })
        {
            // Met, and never confirmed: a race of the server's may have left copies of it.
            found = await _finder.ByKeyAsync(target, null, last, stop);
            found = found.IsNowhere ? await _finder.AtAsync(target, last.Id, last, stop) : found;
        }
        else if (last is not null)
        {
            found = await _finder.AtAsync(target, last.Id, last, stop);
        }
        else
        {
            (found, var created) = await CreateAsync(target, stop);
            if (created is not null)
            {
                return await FinishAsync(target, created, WriteActivity.Create, target.Sources, false, author, stop);
            }
        }

        for (var round = 1; ; round++)
        {
            if (found.Trouble is { } trouble)
            {
                return trouble;
            }

            if (await TakeBackAsync(target, found.Others ?? [], author, stop) is { } copyStays)
            {
                return copyStays with { Server = last ?? Met(found) };
            }

            if (found.Standing is not { } standing)
            {
                if (last is null && round == 1)
                {
                    return WriteResult.Unknown(null, Codes.IdUnknown);
                }

                // It was there and is no more: a person deleted it, and it stays deleted.
                return new WriteResult(SendState.Confirmed, last, ChangedByPerson: true, ClosedByPerson: target.DeletionEnds);
            }

            var (result, answer) = await DecideAsync(target, standing, last, author, stop);
            if (result is not null)
            {
                return result;
            }

            if (round == 2)
            {
                return WriteResult.From(answer!, last ?? Met(found));
            }

            found = answer!.Reply == FhirReply.NotFound
                ? await _finder.ByKeyAsync(target, standing.Id, last, stop)
                : await _finder.AtAsync(target, standing.Id, last, stop);
        }
    }

    private async Task<(ResourceFinder.Found Found, ServerVersion? Created)> CreateAsync(WriteTarget target, CancellationToken stop)
    {
        if (options.SearchBeforeCreate || _unsure.ContainsKey(target.Key))
        {
            var before = await _finder.ByKeyAsync(target, null, null, stop);
            if (!before.IsNowhere)
            {
                _unsure.TryRemove(target.Key, out _);
                return (before, null);
            }
        }

        if (IsTooLate(target))
        {
            return (new ResourceFinder.Found(null, WriteResult.Unknown(null, Codes.ClaimRanOut)), null);
        }

        var answer = await http.CreateOnceAsync(target.Wanted, target.System, target.Value, stop);
        if (answer is { IsDone: true, Status: 201, Id: not null, Version: not null })
        {
            return await CreatedAsync(target, new ServerVersion(answer.Id, answer.Version), stop);
        }

        if (answer is { IsDone: true, Id: not null })
        {
            return (await _finder.AtAsync(target, answer.Id, null, stop), null);
        }

        if (!answer.IsDone && answer.Reply != FhirReply.Conflict && !answer.IsOpen)
        {
            return (new ResourceFinder.Found(null, WriteResult.From(answer, null)), null);
        }

        // Created or not: the server is asked by identifier, now and, while in doubt, before each further attempt.
        _unsure[target.Key] = 0;
        var found = answer.Reply == FhirReply.NotSignedIn ? default : await _finder.ByKeyAsync(target, null, null, stop);
        if (found.Standing is not null || found.Trouble is { State: SendState.Parked })
        {
            _unsure.TryRemove(target.Key, out _);
            return (found, null);
        }

        return (new ResourceFinder.Found(null, answer.IsDone ? WriteResult.Unknown(null, Codes.IdUnknown) : WriteResult.From(answer, null)), null);
    }

    // Not every server keeps the condition when two create at once: what is there under the key is looked at once more.
    private async Task<(ResourceFinder.Found Found, ServerVersion? Created)> CreatedAsync(WriteTarget target, ServerVersion created, CancellationToken stop)
    {
        var matches = await http.FindAsync(target.Type, target.System, target.Value, stop);
        if (matches.Answer.IsOpen)
        {
            _unsure[target.Key] = 0;
            return (new ResourceFinder.Found(null, WriteResult.From(matches.Answer, created)), null);
        }

        _unsure.TryRemove(target.Key, out _);
        return matches.Found.Count > 1 ? (await _finder.ByKeyAsync(target, null, null, stop), null) : (default, created);
    }

    /// <returns>Null where no second copy of ours stands any more; else what to try again for.</returns>
    private async Task<WriteResult?> TakeBackAsync(WriteTarget target, IReadOnlyList<Resource> copies, ResourceReference author, CancellationToken stop)
    {
        // What a person worked on stays, as everywhere.
        foreach (var copy in copies.Where(_digest.Fits))
        {
            if (copy is not { Id: { } id, Meta.VersionId: { Length: > 0 } read })
            {
                continue;
            }

            if (IsTooLate(target))
            {
                return WriteResult.Unknown(null, Codes.ClaimRanOut);
            }

            var over = new ServerVersion(id, read);
            target.TakeBack(copy);
            _digest.Stamp(copy);
            var answer = await http.UpdateAsync(copy, over.Id, over.Version, stop);
            if (answer.IsOpen || answer.Reply == FhirReply.Conflict)
            {
                return WriteResult.From(answer, null);
            }

            if (answer.Reply is FhirReply.Refused or FhirReply.Outside)
            {
                return WriteResult.Parked(null, Codes.DuplicatesOnServer, answer.Status);
            }

            if (answer is { IsDone: true, Version: { } version }
                && await provenance.EnsureAsync(target, over with { Version = version }, WriteActivity.Nullify, target.Sources, author, stop) is { } trouble)
            {
                return trouble;
            }
        }

        return null;
    }

    private bool IsOfAnotherPatient(WriteTarget target, Resource standing) =>
        PatientOf(target.SubjectOf(standing)) is { } theirs && PatientOf(target.SubjectOf(target.Wanted)) is { } ours && theirs != ours;

    private string? PatientOf(ResourceReference? subject) =>
        http.Gate.TryResource(subject?.Reference, out var place, out _) && place is { Type: "Patient" } ? place.Id : null;

    private static ServerVersion? Met(ResourceFinder.Found found) => found.Standing is { } standing ? new ServerVersion(standing.Id, "") : null;

    private bool IsTooLate(WriteTarget target) => clock.GetUtcNow() >= target.Until;

    /// <returns>The result, or the answer to an update that met another version or nothing.</returns>
    private async Task<(WriteResult? Result, FhirAnswer? Answer)> DecideAsync(
        WriteTarget target, Standing standing, ServerVersion? last, ResourceReference author, CancellationToken stop)
    {
        var isConfirmed = last is { IsConfirmed: true } && last.Id == standing.Id && last.Version == standing.Version;
        var weLeftIt = isConfirmed || _digest.Fits(standing.Resource);
        if (IsOfAnotherPatient(target, standing.Resource))
        {
            // Neither written over nor counted as answered: what is there is another patient's record.
            var there = new ServerVersion(standing.Id, "");
            return (weLeftIt ? WriteResult.Parked(there, Codes.KeyOfAnotherPatient) : new WriteResult(SendState.Confirmed, there, ChangedByPerson: true), null);
        }

        if (!weLeftIt || target.HoldsOthersWork(standing.Resource))
        {
            return await DecideOnOthersAsync(target, standing, weLeftIt, last, author, stop);
        }

        if (standing.Version is null)
        {
            return (_digest.Says(standing.Resource, target.Wanted)
                ? WriteResult.Confirmed(standing.Id, "")
                : WriteResult.Parked(new ServerVersion(standing.Id, ""), Codes.VersionUnknown), null);
        }

        var left = new ServerVersion(standing.Id, standing.Version);
        if (_digest.Says(standing.Resource, target.Wanted))
        {
            var was = target.Withdraws ? WriteActivity.Nullify : last is { IsConfirmed: true } ? WriteActivity.Update : WriteActivity.Create;
            return (await FinishAsync(target, left, was, target.Sources, false, author, stop), null);
        }

        if (!isConfirmed)
        {
            // Our own version whose answer was lost: it gets its Provenance before it is history.
            var lost = last is { IsConfirmed: true } ? WriteActivity.Update : WriteActivity.Create;
            if (await provenance.EnsureAsync(target, left, lost, target.SourcesOf(standing.Resource), author, stop) is { } trouble)
            {
                return (trouble, null);
            }
        }

        return await UpdateAsync(target, target.Wanted, left, false, author, stop);
    }

    private async Task<(WriteResult? Result, FhirAnswer? Answer)> DecideOnOthersAsync(
        WriteTarget target, Standing standing, bool weLeftIt, ServerVersion? last, ResourceReference author, CancellationToken stop)
    {
        var (resource, isClosed) = (standing.Resource, target.IsEndedByPerson(standing.Resource));
        if (standing.Version is not null && target.TryEnd(resource))
        {
            WriteTarget.MarkShared(resource);
            _digest.Stamp(resource);
            var (result, answer) = await UpdateAsync(target, resource, new ServerVersion(standing.Id, standing.Version), true, author, stop);
            return (result is null ? null : result with { ClosedByPerson = isClosed }, answer);
        }

        if (weLeftIt && standing.Version is not null)
        {
            var activity = target.Withdraws ? WriteActivity.Nullify : WriteActivity.Update;
            var done = await FinishAsync(target, new ServerVersion(standing.Id, standing.Version), activity, target.Sources, true, author, stop);
            return (done with { ClosedByPerson = isClosed }, null);
        }

        // Left as that person left it; what we know as ours is still what we wrote before.
        var ours = new ServerVersion(standing.Id, last is not null && last.Id == standing.Id ? last.Version : "");
        return (new WriteResult(SendState.Confirmed, ours, ChangedByPerson: true, ClosedByPerson: isClosed), null);
    }

    private async Task<(WriteResult? Result, FhirAnswer? Answer)> UpdateAsync(
        WriteTarget target, Resource resource, ServerVersion over, bool isShared, ResourceReference author, CancellationToken stop)
    {
        // After the version was read and before it is written over: whoever claimed the message since makes it another version.
        if (IsTooLate(target))
        {
            return (WriteResult.Unknown(over, Codes.ClaimRanOut), null);
        }

        var answer = await http.UpdateAsync(resource, over.Id, over.Version, stop);
        if (answer.Reply is FhirReply.Conflict or FhirReply.NotFound or FhirReply.Gone)
        {
            return (null, answer);
        }

        if (!answer.IsDone)
        {
            return (WriteResult.From(answer, over), null);
        }

        var version = answer.Version ?? (await http.ReadAsync(target.Type, over.Id, stop)).Version;
        if (version is null)
        {
            return (WriteResult.Unknown(over, Codes.VersionUnknown), null);
        }

        var activity = target.Withdraws ? WriteActivity.Nullify : WriteActivity.Update;
        return (await FinishAsync(target, new ServerVersion(over.Id, version), activity, target.Sources, isShared, author, stop), null);
    }

    private async Task<WriteResult> FinishAsync(
        WriteTarget target, ServerVersion written, WriteActivity activity, IEnumerable<string> sources, bool isShared, ResourceReference author, CancellationToken stop)
    {
        var trouble = await provenance.EnsureAsync(target, written, activity, sources, author, stop);
        return (trouble ?? WriteResult.Confirmed(written.Id, written.Version)) with { ChangedByPerson = isShared };
    }
}
