namespace AirwayGuard.TestKit.Habits;

/// <summary>Errors come as OperationOutcomes that are not valid: an issue without a code, or nothing at all.</summary>
/// <param name="isEmpty">The body is empty.</param>
public sealed class InvalidOutcomes(bool isEmpty = false) : AlteredAnswers
{
    protected override Task AlterAsync(HttpRequestMessage request, HttpResponseMessage response, CancellationToken stop)
    {
        if (!response.IsSuccessStatusCode)
        {
            JsonAnswer.Write(response, isEmpty ? "" : """{"resourceType":"OperationOutcome","issue":[{"severity":"error","diagnostics":"bad"}]}""", JsonAnswer.FhirJson);
        }

        return Task.CompletedTask;
    }
}
