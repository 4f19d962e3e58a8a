using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Orders;

/// <summary>A word, phrase, number or sign with what it stands for.</summary>
/// <param name="Value">Of a number its value, of an interval its hours; else 0.</param>
/// <param name="Unit">Of a unit of pressure.</param>
internal readonly record struct Piece(Term Term, decimal Value, Unit Unit, TextSpan Span, TokenMarks Marks)
{
    public bool Touches => (Marks & TokenMarks.Touches) != TokenMarks.None;

    public bool Has(TokenMarks mark) => (Marks & mark) != TokenMarks.None;
}
