using System.Text;
using AirwayGuard.Core.Charting;

namespace AirwayGuard.Storage.Entities;

/// <summary>An entity in memory.</summary>
internal sealed class KnownEntity(Entity entity, byte[] name, string? identity)
{
    public Entity Entity => entity;

    public byte[] Utf8Name => name;

    /// <summary>The identity that stands in keys, once one was given.</summary>
    public string? Identity { get; set; } = identity;

    public string Name => Encoding.UTF8.GetString(name);
}
