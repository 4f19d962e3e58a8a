using System.Text;

namespace AirwayGuard.Rules.Tests;

/// <summary>A document with a few signs put in, taken out, changed or doubled, as a seed says.</summary>
internal static class Mutilated
{
    private const string Signs = "[]{}:-?&*!|>'\"%@`#, \n\t0a9é\u2028\uFFFF";

    public static string Of(string document, Random random)
    {
        var text = new StringBuilder(document);
        for (var change = random.Next(1, 6); change > 0; change--)
        {
            var at = random.Next(text.Length);
            switch (random.Next(4))
            {
                case 0: text.Remove(at, Math.Min(random.Next(1, 40), text.Length - at)); break;
                case 1: text.Insert(at, Signs[random.Next(Signs.Length)]); break;
                case 2: text[at] = Signs[random.Next(Signs.Length)]; break;
                default: text.Insert(at, text.ToString(at, Math.Min(random.Next(1, 60), text.Length - at))); break;
            }
        }

        return text.ToString();
    }
}
