namespace AirwayGuard.Core.Orders;

/// <summary>Numbers of the facts that were read from an order's text: above those of its coded parts, sixteen for each order in it.</summary>
public static class TextOrdinal
{
    /// <summary>The first; coded parts have lower ones.</summary>
    public const ushort First = 49152;

    private const int PerPart = 16, Unread = PerPart - 1, Mode = PerPart - 2, Reason = PerPart - 3;

    /// <summary>Orders of one text that are kept; no order has as many.</summary>
    public const int MostParts = (ushort.MaxValue - First) / PerPart;

    /// <param name="part">From 0, below <see cref="MostParts"/>.</param>
    public static ushort Of(int part, OrderField field) => (ushort)(First + (part * PerPart) + (int)field);

    public static ushort OfUnread(int part) => (ushort)(First + (part * PerPart) + Unread);

    public static ushort OfMode(int part) => (ushort)(First + (part * PerPart) + Mode);

    public static ushort OfReason(int part) => (ushort)(First + (part * PerPart) + Reason);

    /// <summary>The order within the text, from 0; −1 for a fact of a coded part.</summary>
    public static int PartOf(int ordinal) => ordinal < First ? -1 : (ordinal - First) / PerPart;

    public static bool IsUnread(int ordinal) => ordinal >= First && (ordinal - First) % PerPart == Unread;

    /// <summary>What the fact says; null of what was left unread, and of a mode.</summary>
    public static OrderField? FieldOf(int ordinal) => ordinal < First || (ordinal - First) % PerPart > (int)OrderField.DoNotSuction ? null : (OrderField)((ordinal - First) % PerPart);
}
