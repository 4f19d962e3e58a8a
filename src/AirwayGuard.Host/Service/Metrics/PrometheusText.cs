using System.Globalization;
using System.Text;

namespace AirwayGuard.Host.Service.Metrics;

/// <summary>
/// Prometheus's text format 0.0.4: HELP and TYPE once a metric, then its samples. Labels are ids of ours (a check, a state, a
/// question); nothing that was charted and nobody's name is ever one.
/// </summary>
internal sealed class PrometheusText
{
    public const string ContentType = "text/plain; version=0.0.4; charset=utf-8";

    private readonly StringBuilder _text = new();

    public void Gauge(string name, string help, double value) => One(name, "gauge", help, value);

    public void Counter(string name, string help, double value) => One(name, "counter", help, value);

    /// <summary>Begins a metric of which <see cref="Sample"/> gives the values.</summary>
    public void Begin(string name, string type, string help) =>
        _text.Append("# HELP ").Append(name).Append(' ').Append(help).Append('\n').Append("# TYPE ").Append(name).Append(' ').Append(type).Append('\n');

    public void Sample(string name, double value, params ReadOnlySpan<(string Name, string Value)> labels)
    {
        _text.Append(name);
        for (var i = 0; i < labels.Length; i++)
        {
            _text.Append(i == 0 ? '{' : ',').Append(labels[i].Name).Append("=\"").Append(Escaped(labels[i].Value)).Append('"');
        }

        _text.Append(labels.Length > 0 ? "} " : " ").Append(value.ToString("R", CultureInfo.InvariantCulture)).Append('\n');
    }

    public override string ToString() => _text.ToString();

    private void One(string name, string type, string help, double value)
    {
        Begin(name, type, help);
        Sample(name, value);
    }

    private static string Escaped(string value) =>
        value.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal).Replace("\n", "\\n", StringComparison.Ordinal);
}
