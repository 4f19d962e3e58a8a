using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>A link to what follows that leads elsewhere: to another machine, to pages kept no longer, or to this page once more.</summary>
/// <param name="to">One of these.</param>
internal sealed class WrongNext(string to = "another machine") : PageFault($"the next link leads to {to}")
{
    public override HttpFault Draw(Schedule schedule) => new WrongNext(schedule.OneOf(["another machine", "pages kept no longer", "this page"]));

    protected override bool Spoil(JsonObject bundle, Uri asked)
    {
        if (Next(bundle) is not { } link)
        {
            return false;
        }

        link["url"] = to switch
        {
            "another machine" => "https://elsewhere.example.org/fhir/Observation?_page=1",
            "this page" => asked.AbsoluteUri,
            _ => $"{asked.GetLeftPart(UriPartial.Path)}?_page=0-0&_offset=2",
        };
        return true;
    }
}
