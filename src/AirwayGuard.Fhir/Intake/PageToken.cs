using System.Globalization;

namespace AirwayGuard.Fhir.Intake;

/// <summary>What to ask next, as handed through a sweep.</summary>
/// <param name="IsOwn">We wrote the question, so the answer is held against it; else it is a link of the server's.</param>
/// <param name="Sifts">The server left out the codes: rows of other codes are left out here.</param>
/// <param name="IsWhole">The server leaves out the time: it is not asked by time again.</param>
/// <param name="Seen">Entries on the pages since the last question of our own.</param>
internal readonly record struct PageToken(bool IsOwn, bool Sifts, bool IsWhole, int Seen, string Address)
{
    public static PageToken Read(string text)
    {
        var end = text.IndexOf(' ', StringComparison.Ordinal);
        return new(text[0] == 'o', text[1] == 's', text[2] == 'w', int.Parse(text[3..end], CultureInfo.InvariantCulture), text[(end + 1)..]);
    }

    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{(IsOwn ? 'o' : 'l')}{(Sifts ? 's' : '-')}{(IsWhole ? 'w' : '-')}{Seen} {Address}");
}
