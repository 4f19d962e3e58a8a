namespace AirwayGuard.TestKit.Habits;

/// <summary>The CapabilityStatement says less than the server does, or is not there.</summary>
public sealed class MetadataShort(MetadataLack lack) : Habit
{
    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        if (PathOf(request) is not ["metadata"])
        {
            return await PassAsync(request, cancellationToken);
        }

        if (lack == MetadataLack.Statement)
        {
            return JsonAnswer.Refuse(request, 404, "not-found");
        }

        var response = await PassAsync(request, cancellationToken);
        var statement = (await JsonAnswer.ReadAsync(response, cancellationToken))!;
        var rest = statement["rest"]![0]!.AsObject();
        switch (lack)
        {
            case MetadataLack.Rest:
                statement.Remove("rest");
                break;
            case MetadataLack.Resources:
                rest.Remove("resource");
                break;
            default:
                foreach (var resource in rest["resource"]!.AsArray())
                {
                    resource!.AsObject().Remove("interaction");
                }

                break;
        }

        JsonAnswer.Write(response, statement);
        return response;
    }
}
