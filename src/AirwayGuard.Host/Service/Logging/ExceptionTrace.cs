using System.Diagnostics;
using System.Text;
using AirwayGuard.Storage;

namespace AirwayGuard.Host.Service.Logging;

/// <summary>
/// What may be said of an exception: its type, our code where it carries one, and the methods it came through. Never its message,
/// its data or its own text, since those quote whatever met the fault.
/// </summary>
internal static class ExceptionTrace
{
    private const int MostFrames = 20, MostExceptions = 5;

    public static string Of(Exception exception)
    {
        var text = new StringBuilder();
        var current = exception;
        for (var count = 0; current is not null && count < MostExceptions; count++, current = InnerOf(current))
        {
            if (count > 0)
            {
                text.Append(" caused by ");
            }

            Append(text, current);
        }

        return text.ToString();
    }

    private static Exception? InnerOf(Exception exception) =>
        exception is AggregateException { InnerExceptions: [var first, ..] } ? first : exception.InnerException;

    private static void Append(StringBuilder text, Exception exception)
    {
        text.Append(exception.GetType().FullName);
        if (exception is LedgerException ledger)
        {
            text.Append(' ').Append(ledger.Problem.Code.Id);
        }

        foreach (var frame in new StackTrace(exception, fNeedFileInfo: false).GetFrames().Take(MostFrames))
        {
            if (frame.GetMethod() is { } method)
            {
                text.Append(" at ").Append(method.DeclaringType?.FullName).Append('.').Append(method.Name);
            }
        }
    }
}
