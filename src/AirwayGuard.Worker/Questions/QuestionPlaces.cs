using AirwayGuard.Worker.Places;

namespace AirwayGuard.Worker.Questions;

/// <summary>What charted places are part of, for many questions at once.</summary>
public sealed class QuestionPlaces(PlacesAbove above) : IDisposable
{
    private readonly SemaphoreSlim _one = new(1, 1);

    public async ValueTask<IReadOnlyCollection<string>> OfAsync(IReadOnlyCollection<string> places, CancellationToken stop)
    {
        await _one.WaitAsync(stop);
        try
        {
            return await above.OfAsync(places, stop);
        }
        finally
        {
            _one.Release();
        }
    }

    public void Dispose() => _one.Dispose();
}
