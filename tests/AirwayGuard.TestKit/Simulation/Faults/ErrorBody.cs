using System.Net.Http.Headers;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>What stands in an answer that tells of trouble, as servers and what stands before them were seen to write it (all invented).</summary>
internal sealed record ErrorBody(string Name, string MediaType, string Text)
{
    public static readonly IReadOnlyList<ErrorBody> All =
    [
        new("an outcome", "application/fhir+json", """{"resourceType":"OperationOutcome","issue":[{"severity":"error","code":"transient"}]}"""),
        new("an outcome without code", "application/fhir+json", """{"resourceType":"OperationOutcome","issue":[{"severity":"error","diagnostics":"x"}]}"""),
        new("an outcome without issues", "application/fhir+json", """{"resourceType":"OperationOutcome"}"""),
        new("an outcome with issues that are none", "application/fhir+json", """{"resourceType":"OperationOutcome","issue":[7,"x",null]}"""),
        new("plain text", "text/plain", "Something went wrong"),
        new("plain text called FHIR", "application/fhir+json", "Something went wrong"),
        new("a page", "text/html", "<!DOCTYPE html><html><body><h1>Sorry</h1></body></html>"),
        new("nothing", "application/fhir+json", ""),
    ];

    public HttpContent ToContent()
    {
        var content = new StringContent(Text);
        content.Headers.ContentType = new MediaTypeHeaderValue(MediaType);
        return content;
    }
}
