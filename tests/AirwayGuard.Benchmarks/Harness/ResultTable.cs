using System.Globalization;
using System.Text;

namespace AirwayGuard.Benchmarks.Harness;

/// <summary>The lines of a run, printed as one Markdown table with notes below.</summary>
internal sealed class ResultTable
{
    private readonly List<string> _lines = [];
    private readonly List<string> _notes = [];

    /// <summary>A sentence below the table.</summary>
    public void Note(string note) => _notes.Add(note);

    /// <param name="unit">What is counted: row, session, patient.</param>
    public void Add(string benchmark, string unit, IEnumerable<Standing> standings)
    {
        foreach (var standing in standings)
        {
            var ratio = Say($"{Number(standing.Ratio)} ({Number(standing.RatioLow)} to {Number(standing.RatioHigh)})");
            _lines.Add(Say(
                $"| {benchmark} | {standing.Name} | {unit} | {Number(standing.UnitsPerCpuSecond)} | {Number(standing.MicrosecondsPerUnit)} | {Number(standing.WallMicrosecondsPerUnit)} | {Number(standing.BytesPerUnit)} | {ratio} |"));
        }
    }

    /// <summary>The table with its heading.</summary>
    public string ToMarkdown()
    {
        var text = new StringBuilder()
            .AppendLine("| benchmark | way | unit | units/CPU s | CPU µs/unit | wall µs/unit | B/unit | times the baseline (lowest to highest round) |")
            .AppendLine("|---|---|---|---|---|---|---|---|");
        _lines.ForEach(line => text.AppendLine(line));
        _notes.ForEach(note => text.AppendLine().AppendLine(note));
        return text.ToString();
    }

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static string Number(double value) =>
        value.ToString(Math.Abs(value) >= 100 ? "N0" : Math.Abs(value) >= 10 ? "N1" : "N2", CultureInfo.InvariantCulture);
}
