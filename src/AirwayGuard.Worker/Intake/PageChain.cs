using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Intake;

/// <summary>
/// The pages of one pass so far, and whether they will ever end: a server that always names one more page would be asked for ever, and
/// nothing would be judged. What it brings is told by what the pass has met, not by what the ledger knows: a wide sweep may know it all.
/// </summary>
public sealed class PageChain
{
    /// <summary>Pages in a row that bring nothing the pass has not met.</summary>
    public const int MostBarren = 50;

    /// <summary>Pages of one pass, whatever they bring: nine million rows by 20 are 450,000.</summary>
    public const int MostPages = 1_000_000;

    // What goes round over more than this is ended by the number of its pages.
    private const int MostRemembered = 200_000;

    private readonly HashSet<int> _met = [];
    private int _pages;
    private int _barren;

    /// <returns>The page as it came; where its pages go on without end, as the last one, after which something may be left out.</returns>
    public SourcePage Bounded(string query, SourcePage page)
    {
        if (page.Next is null)
        {
            return page;
        }

        _pages++;
        _barren = BringsNews(page) ? 0 : _barren + 1;
        return _barren < MostBarren && _pages < MostPages
            ? page
            : page with { Next = null, IsComplete = false, Remarks = [.. page.Remarks, new Problem(Codes.PagesWithoutEnd, query, Codes.PagesWithoutEnd.Title)] };
    }

    private bool BringsNews(SourcePage page)
    {
        var isNews = false;
        foreach (var entry in page.Arrivals.Concat(page.LeftOut))
        {
            if (_met.Count == MostRemembered)
            {
                _met.Clear();
            }

            isNews |= _met.Add(MarkOf(entry));
        }

        return isNews;
    }

    // What has no version is told by the server's time of it, and what has no id by its content.
    private static int MarkOf(Arrival entry)
    {
        var mark = default(HashCode);
        mark.Add((entry.Kind, entry.Type, entry.Id, entry.Version));
        mark.Add(entry.KnownBy == KnownBy.ServersStamp ? entry.KnownAt : default);
        if (entry.Id is null)
        {
            mark.AddBytes(entry.Body.Span);
        }

        return mark.ToHashCode();
    }
}
