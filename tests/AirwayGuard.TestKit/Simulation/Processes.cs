using AirwayGuard.Core.Ports;
using AirwayGuard.Storage;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>The one process of the service, or the two that share a ledger: which of them is up, down or standing still.</summary>
internal sealed class Processes(string folder, SimulatedServer server, VirtualTime clock, Turns turns, Random chance, LifeSettings settings)
{
    private readonly ServiceLife?[] _lives = new ServiceLife?[settings.IsShared ? 2 : 1];
    private readonly DateTimeOffset[] _notBefore = new DateTimeOffset[2];
    private readonly List<AuditHead> _heads = [];

    public SimulatedDisk Disk { get; } = new(clock, chance);

    public Fences Fences { get; } = new();

    /// <summary>Heads of the audit trail at each end of a process.</summary>
    public IReadOnlyList<AuditHead> Heads => _heads;

    /// <summary>A process that is up; null for none.</summary>
    public ServiceLife? Up => _lives.FirstOrDefault(life => life is not null);

    public SqliteLedger Ledger => Up!.Ledger;

    /// <summary>Every step of every process.</summary>
    public IEnumerable<Fibre> Fibres => _lives.OfType<ServiceLife>().SelectMany(life => life.Fibres);

    /// <summary>Processes that are down and whose time to start has come.</summary>
    public IReadOnlyList<int> Startable => [.. Enumerable.Range(0, _lives.Length).Where(number => _lives[number] is null && clock.Now >= _notBefore[number])];

    /// <summary>Steps that can go on now, with their process.</summary>
    public IReadOnlyList<(int Process, Fibre Fibre)> Able =>
    [
        .. Enumerable.Range(0, _lives.Length).Where(number => clock.Now >= _notBefore[number])
            .SelectMany(number => (_lives[number]?.Fibres ?? []).Where(fibre => fibre.MayGoOn && (number == 0 || fibre.Name != "subscriptions")).Select(fibre => (number, fibre))),
    ];

    /// <summary>Name of a process in a schedule; nothing where there is one only.</summary>
    public string NameOf(int process) => _lives.Length == 1 ? "" : process == 0 ? "A " : "B ";

    public async Task StartAsync(int process)
    {
        // A process that starts takes its first commit with it.
        Disk.MakeRoom();
        _lives[process] ??= await ServiceLife.StartAsync(folder, server, clock, turns, Fences, Disk, chance, settings);
    }

    /// <summary>Starts what is down; nothing stands still any more.</summary>
    public async Task StartAllAsync()
    {
        Disk.MakeRoom();
        Array.Clear(_notBefore);
        for (var process = 0; process < _lives.Length; process++)
        {
            await StartAsync(process);
        }
    }

    public void StandStill(int process, TimeSpan time) => _notBefore[process] = clock.Now + time;

    /// <param name="timeDown">How long nobody starts it again.</param>
    public async Task EndAsync(int process, TimeSpan timeDown)
    {
        if (_lives[process] is { } life)
        {
            _lives[process] = null;
            _notBefore[process] = clock.Now + timeDown;
            _heads.Add(await life.EndAsync());
        }
    }

    public async Task EndAllAsync()
    {
        for (var process = 0; process < _lives.Length; process++)
        {
            await EndAsync(process, TimeSpan.Zero);
        }
    }
}
