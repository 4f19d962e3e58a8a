using System.Collections.Concurrent;
using System.Security.Cryptography;
using System.Text;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Worker.Intake;

/// <summary>
/// Answers notices: who knows the channel's token pulls its sweep forward, everybody else is turned away without a durable write.
/// Bodies are never read. Tokens are held as hashes only.
/// </summary>
public sealed class NotifyDoor(NoticeBoard board, IntakeHealth health, TimeProvider clock)
{
    /// <summary>Bytes a notice may have.</summary>
    public const long LargestBody = 1_000_000;

    /// <summary>Notices a second that one channel may send.</summary>
    public const int MostASecond = 50;

    /// <summary>Seconds without a refusal after which the channel counts as calm again.</summary>
    private const int CalmAfter = 60;

    private static readonly byte[] Nobody = SHA256.HashData(Encoding.UTF8.GetBytes("no channel"));

    private readonly ConcurrentDictionary<string, Channel> _channels = new(StringComparer.Ordinal);
    private long _refused;

    /// <summary>Notices turned away for their number, over all channels.</summary>
    public long Refused => Interlocked.Read(ref _refused);

    /// <summary>Opens a channel for a question under a bearer token.</summary>
    public void Open(string channel, string query, string bearer) => _channels[channel] = new Channel(query, HashOf(bearer));

    public void Close(string channel) => _channels.TryRemove(channel, out _);

    /// <param name="authorization">The Authorization header, or null.</param>
    /// <returns>HTTP status to answer with.</returns>
    public int Answer(string channel, string? authorization, long? bodyLength)
    {
        // An unknown channel costs the same comparison as a known one and gives the same answer.
        var known = _channels.GetValueOrDefault(channel);
        var bearer = authorization is not null && authorization.StartsWith("Bearer ", StringComparison.Ordinal) ? authorization["Bearer ".Length..] : "";
        if (!CryptographicOperations.FixedTimeEquals(HashOf(bearer), known?.TokenHash ?? Nobody) || known is null)
        {
            return 401;
        }

        if (bodyLength > LargestBody)
        {
            return 413;
        }

        // A hint costs nothing, and the sender may not repeat what was refused: the board is marked either way.
        board.Pull(known.Query);
        var second = clock.GetUtcNow().ToUnixTimeSeconds();
        if (!known.Admit(second))
        {
            Interlocked.Increment(ref _refused);
            health.Report(known.Query, Codes.NoticesRefused);
            return 429;
        }

        if (known.IsCalm(second))
        {
            health.Clear(known.Query, Codes.NoticesRefused);
        }

        return 202;
    }

    private static byte[] HashOf(string token) => SHA256.HashData(Encoding.UTF8.GetBytes(token));

    private sealed class Channel(string query, byte[] tokenHash)
    {
        private readonly Lock _lock = new();
        private long _second;
        private long _lastRefused;
        private int _count;

        public string Query => query;

        public byte[] TokenHash => tokenHash;

        public bool Admit(long second)
        {
            lock (_lock)
            {
                (_second, _count) = second == _second ? (second, _count + 1) : (second, 1);
                _lastRefused = _count > MostASecond ? second : _lastRefused;
                return _count <= MostASecond;
            }
        }

        public bool IsCalm(long second)
        {
            lock (_lock)
            {
                return second - _lastRefused >= CalmAfter;
            }
        }
    }
}
