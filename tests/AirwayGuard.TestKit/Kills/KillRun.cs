namespace AirwayGuard.TestKit.Kills;

/// <summary>
/// Ends the built service at moments that a seed draws, and starts it again on the same folder, while rows are charted at its server;
/// then lets it come to rest and holds it against the server and against a service that never was ended.
/// </summary>
public static class KillRun
{
    /// <param name="stop">Ends the service and cuts the run off: the outcome then holds what was seen so far.</param>
    /// <exception cref="HttpRequestException">The server did not take what was charted: the run itself is at fault.</exception>
    public static async Task<KillOutcome> RunAsync(KillSettings settings, CancellationToken stop)
    {
        var (clock, folder) = (MachineClock.Instance, Directory.CreateTempSubdirectory("airwayguard-kills-"));
        try
        {
            await using var server = await ServedSandbox.StartAsync(folder.CreateSubdirectory("server").FullName, clock);
            var place = new ServicePlace(settings.Service, server.Address, folder.CreateSubdirectory("service").FullName, ServiceProcess.FreePort(), IsLive: true);
            using var poster = new Poster(server, place, clock, settings.Seed);
            using var enough = CancellationTokenSource.CreateLinkedTokenSource(stop);
            var posting = poster.RunAsync(enough.Token);
            var lives = new Lives(server, place, clock, new Random(settings.Seed));
            try
            {
                while (lives.Count < settings.Kills && !stop.IsCancellationRequested && !posting.IsFaulted)
                {
                    await lives.LiveAndDieAsync();
                }
            }
            finally
            {
                await enough.CancelAsync();
                await posting;
            }

            if (stop.IsCancellationRequested)
            {
                return CutOff(settings, server, poster, lives);
            }

            var anew = place with { Folder = folder.CreateSubdirectory("anew").FullName, Port = ServiceProcess.FreePort(), IsLive = false };
            var ending = new Ending(place, anew, clock);
            try
            {
                await ending.RestAsync(stop);
            }
            catch (OperationCanceledException) when (stop.IsCancellationRequested)
            {
                return CutOff(settings, server, poster, lives);
            }

            return await ending.OutcomeAsync(settings, server.Contents, poster, lives);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static KillOutcome CutOff(KillSettings settings, ServedSandbox server, Poster poster, Lives lives) => new(settings, [.. lives.Schedule], [.. lives.Troubles])
    {
        IsCutOff = true, Rows = poster.Rows, PersonsActs = server.Contents.Hands.Marks.Count, LastDone = lives.LastDone,
    };
}
