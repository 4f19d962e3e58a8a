using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Sandbox.Http;
using Xunit;

namespace AirwayGuard.Sandbox.Tests;

/// <summary>A sandbox in a folder of its own, spoken to through the handler.</summary>
internal sealed class World : IDisposable
{
    public const string Base = "http://localhost/fhir";
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("sandbox-");
    private readonly Action<SandboxOptions> configure;

    public World(Action<SandboxOptions>? configure = null)
    {
        this.configure = configure ?? (_ => { });
        Open();
    }

    public ManualClock Clock { get; } = new();

    public SandboxRepository Repository { get; private set; } = null!;

    public SandboxServer Server { get; private set; } = null!;

    public HttpClient Client { get; private set; } = null!;

    public string Folder => folder.FullName;

    public void Restart()
    {
        Close();
        Open();
    }

    public Task<Answer> Get(string path, params (string Name, string Value)[] headers) => Send(HttpMethod.Get, path, body: null, headers);

    public Task<Answer> Post(string path, string body, params (string Name, string Value)[] headers) => Send(HttpMethod.Post, path, body, headers);

    public Task<Answer> Put(string path, string body, params (string Name, string Value)[] headers) => Send(HttpMethod.Put, path, body, headers);

    public Task<Answer> Delete(string path, params (string Name, string Value)[] headers) => Send(HttpMethod.Delete, path, body: null, headers);

    /// <summary>Sends; a <c>Content-Type</c> among the headers replaces FHIR's.</summary>
    public async Task<Answer> Send(HttpMethod method, string path, string? body, params (string Name, string Value)[] headers)
    {
        var address = path.StartsWith("http", StringComparison.Ordinal) ? path : $"{Base}/{path}".TrimEnd('/');
        using var request = new HttpRequestMessage(method, address);
        if (body is not null)
        {
            request.Content = new ByteArrayContent(Encoding.UTF8.GetBytes(body));
            request.Content.Headers.ContentType = new MediaTypeHeaderValue("application/fhir+json");
        }

        foreach (var (name, value) in headers)
        {
            if (name == "Content-Type")
            {
                request.Content!.Headers.Remove(name);
                request.Content.Headers.TryAddWithoutValidation(name, value);
            }
            else if (name == "Content-Encoding")
            {
                request.Content!.Headers.TryAddWithoutValidation(name, value);
            }
            else
            {
                request.Headers.TryAddWithoutValidation(name, value);
            }
        }

        using var response = await Client.SendAsync(request, TestContext.Current.CancellationToken);
        return await Answer.Of(response);
    }

    public void Dispose()
    {
        Close();
        folder.Delete(recursive: true);
    }

    private void Open()
    {
        var options = new SandboxOptions { Folder = Folder, WaitsForDisk = false };
        configure(options);
        Repository = new SandboxRepository(options, Clock);
        Server = new SandboxServer(Repository, Clock);
        Client = new HttpClient(new SandboxHandler(Server));
    }

    private void Close()
    {
        Client.Dispose();
        Repository.Dispose();
    }
}

/// <summary>What came back.</summary>
internal sealed record Answer(HttpStatusCode Status, string Text, Dictionary<string, string> Headers)
{
    public JsonObject Json => JsonNode.Parse(Text)!.AsObject();

    public string? Id => (string?)Json["id"];

    public string? Version => (string?)Json["meta"]!["versionId"];

    public string? IssueCode => (string?)Json["issue"]![0]!["code"];

    public IReadOnlyList<JsonObject> Entries => Json["entry"] is JsonArray list ? [.. list.Select(entry => entry!.AsObject())] : [];

    public IReadOnlyList<string> Ids => [.. Entries.Select(entry => (string)entry["resource"]!["id"]!)];

    /// <summary>The statuses of a bundle's answers.</summary>
    public IReadOnlyList<string> Statuses => [.. Entries.Select(entry => (string)entry["response"]!["status"]!)];

    /// <summary>The methods of a history's entries.</summary>
    public IReadOnlyList<string> Methods => [.. Entries.Select(entry => (string)entry["request"]!["method"]!)];

    public int Total => (int)Json["total"]!;

    public string? Link(string relation) =>
        (string?)(Json["link"] as JsonArray)?.SingleOrDefault(link => (string?)link!["relation"] == relation)?["url"];

    public static async Task<Answer> Of(HttpResponseMessage response)
    {
        var text = await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        var headers = response.Headers.Concat(response.Content.Headers)
            .ToDictionary(header => header.Key, header => string.Join(", ", header.Value), StringComparer.OrdinalIgnoreCase);
        return new Answer(response.StatusCode, text, headers);
    }
}
