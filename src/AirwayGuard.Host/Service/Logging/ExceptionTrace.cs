using System.Diagnostics;
using System.Reflection;
using System.Text;
using AirwayGuard.Storage;

namespace AirwayGuard.Host.Service.Logging;

/// <summary>
/// What may be said of an exception: its type, our code where it carries one, and the methods it came through. Never its message,
/// its data or its own text, since those quote whatever met the fault.
/// </summary>
internal static class ExceptionTrace
{
    private const int MostFrames = 12, MostExceptions = 5;

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

    // The compiler's own steps between an await and what it waits for say nothing.
    private static bool IsTelling(MethodBase method) => method.DeclaringType?.Namespace is not ("System.Runtime.CompilerServices" or "System.Runtime.ExceptionServices");

    private static void Append(StringBuilder text, Exception exception)
    {
        text.Append(exception.GetType().FullName);
        if (exception is LedgerException ledger)
        {
            text.Append(' ').Append(ledger.Problem.Code.Id);
        }

        var methods = new StackTrace(exception, fNeedFileInfo: false).GetFrames().Select(frame => frame.GetMethod()).OfType<MethodBase>().Where(IsTelling);
        foreach (var method in methods.Take(MostFrames))
        {
            text.Append(" at ").Append(method.DeclaringType?.FullName).Append('.').Append(method.Name);
        }
    }
}
