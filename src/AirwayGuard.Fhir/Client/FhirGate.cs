using System.Diagnostics.CodeAnalysis;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Fhir.Client;

/// <summary>
/// Decides every outgoing address: scheme, host, port and base path must be the configured ones, or those of a listed alias. An
/// address under an alias is rewritten to the configured one, so that requests and tokens go to one place only.
/// </summary>
public sealed class FhirGate
{
    private readonly Uri _base;
    private readonly Uri[] _aliases;

    /// <param name="baseAddress">Absolute http or https address of the server's base, without query or fragment.</param>
    /// <param name="aliases">Other names the server gives itself in links.</param>
    /// <exception cref="ArgumentException">An address is not of that form.</exception>
    public FhirGate(Uri baseAddress, IEnumerable<Uri> aliases)
    {
        _base = AsBase(baseAddress, nameof(baseAddress));
        _aliases = [.. aliases.Select(alias => AsBase(alias, nameof(aliases)))];
    }

    /// <summary>The configured base address, ending in a slash.</summary>
    public Uri BaseAddress => _base;

    /// <param name="address">Absolute, or relative to the base.</param>
    /// <param name="allowed">The address on the configured server.</param>
    /// <param name="problem">Why it may not be called; it does not quote the address, which may hold patient data.</param>
    public bool TryAllow(string? address, [NotNullWhen(true)] out Uri? allowed, [NotNullWhen(false)] out Problem? problem)
    {
        allowed = null;
        problem = null;
        var why = address is null or "" ? "The address is empty."
            : address.Any(letter => letter <= ' ' || letter == '\\' || letter == 0x7F) ? "The address holds characters that addresses do not have."
            : !Uri.TryCreate(_base, address, out var full) ? "The address cannot be read."
            : TryRewrite(full, out allowed);
        problem = why is null ? null : new Problem(Codes.AddressOutside, "address", why);
        return problem is null;
    }

    /// <summary>Whether a request may go to this very address: under the configured base, without rewriting.</summary>
    public bool IsOnServer([NotNullWhen(true)] Uri? address) => address is { IsAbsoluteUri: true } && Below(_base, address) is not null;

    /// <summary>Reads where a resource is from a Location header or reference in any of its forms, if it is on the server.</summary>
    public bool TryResource(string? address, [NotNullWhen(true)] out ResourceAddress? resource, [NotNullWhen(false)] out Problem? problem)
    {
        resource = null;
        if (!TryAllow(address, out var allowed, out problem))
        {
            return false;
        }

        resource = ResourceAddress.FromPath(allowed.AbsolutePath[(_base.AbsolutePath.Length - 1)..]);
        problem = resource is null ? new Problem(Codes.AddressOutside, "address", "The address names no resource.") : null;
        return resource is not null;
    }

    private static Uri AsBase(Uri address, string parameter)
    {
        if (!address.IsAbsoluteUri || address.Scheme is not ("http" or "https") || address.Query.Length > 0 || address.Fragment.Length > 0 || address.UserInfo.Length > 0)
        {
            throw new ArgumentException("A server address is absolute http or https, without query, fragment or user.", parameter);
        }

        return new Uri(address.AbsoluteUri.TrimEnd('/') + "/");
    }

    // What stands after the base, or null where the address is not under it. The base itself may come without its slash.
    private static string? Below(Uri root, Uri address)
    {
        if (address.Scheme != root.Scheme || address.IdnHost != root.IdnHost || address.Port != root.Port || address.UserInfo.Length > 0)
        {
            return null;
        }

        var path = address.AbsolutePath;
        if (HasHiddenStep(path))
        {
            return null;
        }

        return path.StartsWith(root.AbsolutePath, StringComparison.Ordinal) ? path[root.AbsolutePath.Length..] + address.Query
            : path.Length == root.AbsolutePath.Length - 1 && root.AbsolutePath.StartsWith(path, StringComparison.Ordinal) ? address.Query
            : null;
    }

    // A server may decode %2e and %2f once more and so leave the base path.
    private static bool HasHiddenStep(string path) =>
        path.Contains("%2e", StringComparison.OrdinalIgnoreCase) || path.Contains("%2f", StringComparison.OrdinalIgnoreCase)
        || path.Contains("%5c", StringComparison.OrdinalIgnoreCase) || path.Contains("%25", StringComparison.Ordinal);

    private string? TryRewrite(Uri address, out Uri? allowed)
    {
        allowed = null;
        if (address.Fragment.Length > 0)
        {
            return "The address has a fragment.";
        }

        foreach (var root in (ReadOnlySpan<Uri>)[_base, .. _aliases])
        {
            if (Below(root, address) is { } below)
            {
                allowed = new Uri(_base.AbsoluteUri + below);
                return null;
            }
        }

        return "Scheme, host, port or base path are not those of the configured server or a listed alias.";
    }
}
