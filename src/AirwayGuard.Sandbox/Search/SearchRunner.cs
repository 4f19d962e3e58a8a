using System.Globalization;
using System.Text;
using AirwayGuard.Sandbox.Storage;

namespace AirwayGuard.Sandbox.Search;

/// <summary>Runs searches on the index; gives sequences of versions, not bodies.</summary>
internal sealed class SearchRunner(Database database)
{
    /// <summary>All matches in the asked order; without one, the order in which they were last written.</summary>
    public List<long> Matches(SearchQuery query)
    {
        var where = Where(query);
        List<Condition> order = [.. query.Order, Condition.Of("r.seq ASC")];
        return Run("SELECT r.seq", where, Condition.Join(", ", order));
    }

    /// <summary>Whether the current version of one resource matches, as a Subscription's criteria ask.</summary>
    public bool Matches(SearchQuery query, string id)
    {
        // Asked at every write, so the cost must not grow with what is stored.
        var where = Condition.Join(" AND ",
        [
            Condition.Of("r.type=? AND r.id=? AND r.deleted=0", query.Type, id),
            .. query.Conditions.Select(condition => condition with { Sql = condition.SqlForOne ?? condition.Sql }),
        ]);
        return Run("SELECT r.seq", where, Condition.Of("r.seq ASC")).Count > 0;
    }

    /// <summary>The current versions that the inclusions add to a page of matches, each once.</summary>
    public List<long> Included(SearchQuery query, IReadOnlyList<long> page)
    {
        var found = new List<long>();
        foreach (var (inclusion, sequence) in query.Inclusions.SelectMany(inclusion => page.Select(sequence => (inclusion, sequence))))
        {
            var sql = inclusion.Reverse
                ? """
                  SELECT r.seq FROM resource m JOIN index_reference x ON x.key=?1 AND x.type=m.type AND x.target=m.id AND x.base=''
                  JOIN resource r ON r.rid=x.rid AND r.deleted=0 WHERE m.seq=?2 AND (?3='' OR m.type=?3) ORDER BY r.seq
                  """
                : """
                  SELECT r.seq FROM resource m JOIN index_reference x ON x.key=?1 AND x.rid=m.rid AND x.base=''
                  JOIN resource r ON r.type=x.type AND r.id=x.target AND r.deleted=0 WHERE m.seq=?2 AND (?3='' OR r.type=?3) ORDER BY r.seq
                  """;
            found.AddRange(database.Query(sql, row => row.GetInt64(0), inclusion.Parameter.Key, sequence, inclusion.TargetType ?? ""));
        }

        return [.. found.Distinct().Except(page)];
    }

    // SQLite's planner knows no counts and would walk all rows of the type; the plus sign (SQLite, optoverview.html §3)
    // keeps it from doing so where a condition narrows.
    private static Condition Where(SearchQuery query)
    {
        var type = query.Conditions.Exists(condition => condition.Narrows) ? "+r.type=? AND r.deleted=0" : "r.type=? AND r.deleted=0";
        return Condition.Join(" AND ", [Condition.Of(type, query.Type), .. query.Conditions]);
    }

    private List<long> Run(string select, Condition where, Condition order)
    {
        var sql = Number($"{select} FROM resource r WHERE {where.Sql} ORDER BY {order.Sql}");
        object[] arguments = [.. where.Arguments, .. order.Arguments];
        return database.Query(sql, row => row.GetInt64(0), arguments);
    }

    // "?" to "?1", "?2", …: values never become SQL text.
    private static string Number(string sql)
    {
        var numbered = new StringBuilder(sql.Length + 16);
        var next = 1;
        foreach (var c in sql)
        {
            numbered.Append(c);
            if (c == '?')
            {
                numbered.Append(next++.ToString(CultureInfo.InvariantCulture));
            }
        }

        return numbered.ToString();
    }
}
