using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Findings;
using AirwayGuard.Fhir.Client;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>Keeps the author Device on the server, with the versions in use, and remembers where it is.</summary>
internal sealed class AuthorWriter(FhirHttp http, FhirSinkOptions options) : IDisposable
{
    private readonly SemaphoreSlim _one = new(1, 1);
    private (string Id, MessageBasis Basis)? _known;

    /// <returns>The reference, or what stopped it.</returns>
    public async Task<(ResourceReference? Author, WriteResult? Trouble)> EnsureAsync(MessageBasis basis, CancellationToken stop)
    {
        await _one.WaitAsync(stop);
        try
        {
            if (_known is { } known && known.Basis == basis)
            {
                return (AuthorDevice.At(known.Id), null);
            }

            var (id, trouble) = await WriteAsync(AuthorDevice.Build(basis, options.Organization), stop);
            if (id is null)
            {
                return (null, trouble);
            }

            _known = (id, basis);
            return (AuthorDevice.At(id), null);
        }
        finally
        {
            _one.Release();
        }
    }

    /// <summary>After a refusal that a missing author may be the reason of.</summary>
    public void Forget() => _known = null;

    public void Dispose() => _one.Dispose();

    private async Task<(string? Id, WriteResult? Trouble)> WriteAsync(Device wanted, CancellationToken stop)
    {
        for (var attempt = 1; ; attempt++)
        {
            var found = await http.FindAsync("Device", WrittenSystems.Device, WrittenSystems.DeviceValue, stop);
            if (!found.Answer.IsDone)
            {
                return (null, From(found.Answer));
            }

            // Of two, made by a race of the server's, always the same one.
            var answer = found.Found.OfType<Device>().OrderBy(device => device.Id, StringComparer.Ordinal).FirstOrDefault() is { } standing
                ? await UpdateAsync(standing.Id!, wanted, stop)
                : await http.CreateOnceAsync(wanted, WrittenSystems.Device, WrittenSystems.DeviceValue, stop);
            if (answer.IsDone && answer.Id is not null)
            {
                return (answer.Id, null);
            }

            // Somebody else wrote it, or the server did not say where it is: look once more.
            if (attempt == 2 || !(answer.IsDone || answer.Reply == FhirReply.Conflict))
            {
                return (null, answer.IsDone ? WriteResult.Unknown(null, Codes.IdUnknown) : From(answer));
            }
        }
    }

    private async Task<FhirAnswer> UpdateAsync(string id, Device wanted, CancellationToken stop)
    {
        var read = await http.ReadAsync("Device", id, stop);
        if (read.Resource is not Device standing)
        {
            return read.IsDone ? read with { Reply = FhirReply.Unclear, Code = Codes.NotFhir } : read;
        }

        if (AuthorDevice.IsCurrent(standing, wanted) || read.Version is null)
        {
            return read with { Id = id };
        }

        AuthorDevice.Update(standing, wanted);
        var answer = await http.UpdateAsync(standing, id, read.Version, stop);
        return answer with { Id = id };
    }

    private static WriteResult From(FhirAnswer answer) => WriteResult.From(answer, null, Codes.AuthorNotAccepted);
}
