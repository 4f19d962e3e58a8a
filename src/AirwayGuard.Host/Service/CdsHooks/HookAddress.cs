namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>The address of a call as the caller knows it, which its token must name.</summary>
internal static class HookAddress
{
    /// <param name="root">As configured; its spelling is kept, since <c>aud</c> is compared sign by sign.</param>
    /// <param name="path">Starts with a slash, such as <c>/cds-services</c>.</param>
    public static string Of(Uri root, string path) => root.OriginalString.TrimEnd('/') + path;

    /// <summary>True for an absolute http or https address without fragment or user.</summary>
    public static bool IsPlain(Uri address, bool allowQuery) =>
        address.IsAbsoluteUri && address.Scheme is "http" or "https" && address.Fragment.Length == 0 && address.UserInfo.Length == 0
        && (allowQuery || address.Query.Length == 0);
}
