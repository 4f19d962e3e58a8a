using System.Text;
using AirwayGuard.Fhir.CdsHooks;

namespace AirwayGuard.Worker.Questions;

/// <summary>Lines of a card's detail: a name in bold, and escaped words.</summary>
internal sealed class CardLines
{
    private readonly StringBuilder _text = new();

    public void Add(string name, string? words)
    {
        if (words is { Length: > 0 })
        {
            _text.Append(_text.Length == 0 ? "" : "\n\n").Append("**").Append(name).Append(":** ").Append(CardText.Escaped(words));
        }
    }

    public void AddAll(string name, IEnumerable<string> words)
    {
        var isFirst = true;
        foreach (var one in words)
        {
            _text.Append(isFirst ? (_text.Length == 0 ? "" : "\n\n") + $"**{name}:**\n" : "").Append("\n- ").Append(CardText.Escaped(one));
            isFirst = false;
        }
    }

    /// <inheritdoc />
    public override string ToString() => _text.ToString();
}
