using AirwayGuard.Core.Orders;

namespace AirwayGuard.Fhir.Reading;

/// <summary>Reads orders written in words. Order sets give the same words again and again, and one order is asked several things of: what was read lately is not read again.</summary>
internal static class OrderTextMemo
{
    private const int Most = 512, Longest = 4_000;

    private static readonly Lately<string, bool> Naming = new(Most, OrderTextReader.NamesAirwaySuction);
    private static readonly Lately<(string Text, bool IsAirwaySuction), OrderText> Orders = new(Most, static order => OrderTextReader.Read(order.Text, order.IsAirwaySuction));

    /// <inheritdoc cref="OrderTextReader.NamesAirwaySuction"/>
    public static bool NamesAirwaySuction(string text) => text.Length > Longest ? OrderTextReader.NamesAirwaySuction(text) : Naming.Of(text);

    /// <inheritdoc cref="OrderTextReader.Read"/>
    public static OrderText Read(string text, bool isAirwaySuction) =>
        text.Length > Longest ? OrderTextReader.Read(text, isAirwaySuction) : Orders.Of((text, isAirwaySuction));
}
