using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.SignOffs;

namespace AirwayGuard.Worker.SignOffs;

/// <summary>
/// Requests from a command beside a running service, which alone may write the ledger: a folder of its account's own, where a request is
/// a file and its answer another. Whoever may write there may sign off.
/// </summary>
public sealed class SignOffMail(string folder)
{
    private const string Request = ".request";
    private const string Answer = ".answer";
    private const string Unfinished = ".tmp";
    private const long MostBytes = 4_194_304;
    private const UnixFileMode OwnFolder = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;

    private static readonly JsonSerializerOptions Form = new() { Converters = { new JsonStringEnumConverter(null, allowIntegerValues: false) }, WriteIndented = true };

    private static readonly DiagnosticCode[] Refusals =
    [
        Codes.SignOffNeedsAPerson, Codes.SignOffUnitWrong, Codes.SignOffOfFaulty, Codes.SignOffOfAnother, Codes.SignOffNothing, Codes.SignOffUnreadable,
        Codes.RuleUnknown, Codes.RulesInForceUnread, Codes.SignOffNotTaken, Codes.SignOffOfSilent,
    ];

    /// <summary>Beside the ledger, in the service's data folder.</summary>
    public static SignOffMail In(string dataFolder) => new(Path.Combine(dataFolder, "sign-offs"));

    /// <summary>Makes the folder. The service does so at its start: it must be able to read there what another account, such as root, puts in.</summary>
    public void Open()
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
        }
        else
        {
            Directory.CreateDirectory(folder, OwnFolder);
        }
    }

    /// <returns>What the answer goes by.</returns>
    public string Post(SignOffRequest request)
    {
        var id = Guid.NewGuid().ToString("N");
        Write(id, Request, new Letter(request.Act, Convert.ToBase64String(request.Document.Span), request.File, [.. request.Checks], [.. request.Units], request.By, request.Reason, request.Posted));
        return id;
    }

    /// <summary>The answer, taken away with its request; null while there is none.</summary>
    public SignOffAnswer? Take(string id)
    {
        var path = PathOf(id, Answer);
        if (!File.Exists(path))
        {
            return null;
        }

        var reply = JsonSerializer.Deserialize<Reply>(File.ReadAllBytes(path), Form) ?? throw new JsonException("null");
        File.Delete(path);
        return new SignOffAnswer(reply.Said, reply.Code.Length == 0 ? null : new Problem(Refusals.First(code => code.Id == reply.Code), reply.Where, reply.Why));
    }

    /// <summary>Takes a request back.</summary>
    /// <returns>False where the service has taken it.</returns>
    public bool TakeBack(string id)
    {
        var path = PathOf(id, Request);
        var stands = File.Exists(path);
        File.Delete(path);
        return stands;
    }

    /// <summary>The requests that wait, by what their answers go by, with null for one that cannot be read.</summary>
    public IEnumerable<(string Id, SignOffRequest? Request)> Waiting()
    {
        if (!Directory.Exists(folder))
        {
            yield break;
        }

        foreach (var path in Directory.EnumerateFiles(folder, "*" + Request).Order(StringComparer.Ordinal).ToList())
        {
            yield return (Path.GetFileNameWithoutExtension(path), Read(path));
        }
    }

    public void Send(string id, SignOffAnswer answer)
    {
        Write(id, Answer, new Reply(answer.Said, answer.Problem?.Code.Id ?? "", answer.Problem?.Where ?? "", answer.Problem?.Why ?? ""));
        File.Delete(PathOf(id, Request));
    }

    private static SignOffRequest? Read(string path)
    {
        try
        {
            if (new FileInfo(path) is not { Length: <= MostBytes, LinkTarget: null })
            {
                return null;
            }

            // What is missing in it is null, whatever its type says.
            return JsonSerializer.Deserialize<Letter>(File.ReadAllBytes(path), Form) is { File: not null, Checks: { } checks, Units: { } units, By: not null, Reason: not null } letter
                && checks.All(static check => check is not null) && units.All(static unit => unit is not null)
                ? new SignOffRequest(letter.Act, Convert.FromBase64String(letter.Document), letter.File, [.. letter.Checks], [.. letter.Units], letter.By, letter.Reason) { Posted = letter.Posted }
                : null;
        }
        catch (Exception wrong) when (wrong is JsonException or FormatException or ArgumentNullException or FileNotFoundException)
        {
            return null;
        }
    }

    private void Write<T>(string id, string ending, T content)
    {
        Open();
        // Whole or not at all: the other side looks at any time.
        var unfinished = PathOf(id, Unfinished);
        File.WriteAllBytes(unfinished, JsonSerializer.SerializeToUtf8Bytes(content, Form));
        File.Move(unfinished, PathOf(id, ending), overwrite: true);
    }

    private string PathOf(string id, string ending) => Path.Combine(folder, id + ending);

    private sealed record Letter(SignOffAct Act, string Document, string File, string[] Checks, string[] Units, string By, string Reason, DateTimeOffset Posted);

    private sealed record Reply(string Said, string Code, string Where, string Why);
}
