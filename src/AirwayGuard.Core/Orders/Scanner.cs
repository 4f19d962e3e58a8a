using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Orders;

/// <summary>Makes pieces of tokens: phrases of the lexicon, the longest first, numbers, and the signs that part sentences and clauses.</summary>
internal static class Scanner
{
    public static List<Piece> Read(List<Token> tokens)
    {
        var pieces = new List<Piece>(tokens.Count);
        var depth = 0;
        for (var i = 0; i < tokens.Count;)
        {
            if (IsListMark(tokens, pieces, i, depth, out var marks))
            {
                pieces.Add(new Piece(Term.ListItem, 0m, Unit.None, TextSpan.Over(tokens[i].Span, tokens[i + marks - 1].Span), TokenMarks.None));
                i += marks;
                continue;
            }

            if (IsLetterInBrackets(tokens, pieces, i, depth))
            {
                pieces.Add(new Piece(Term.ListItem, 0m, Unit.None, TextSpan.Over(tokens[i].Span, tokens[i + 2].Span), TokenMarks.None));
                i += 3;
                continue;
            }

            if (IsWithin(tokens, pieces, i))
            {
                i++;
                continue;
            }

            if (IsNumberMark(tokens, pieces, i))
            {
                pieces.Add(new Piece(Term.Size, 0m, Unit.None, tokens[i].Span, TokenMarks.None));
                i += 2;
                continue;
            }

            var piece = One(tokens, i, out var used);
            depth = piece.Term == Term.Opens ? depth + 1 : piece.Term == Term.Closes ? Math.Max(0, depth - 1) : depth;
            pieces.Add(piece);
            i += used;
        }

        return pieces;
    }

    // (a) … (b), once the text began as a list.
    private static bool IsLetterInBrackets(List<Token> tokens, List<Piece> pieces, int at, int depth) =>
        depth == 0 && at + 3 < tokens.Count && tokens[at].Text == "(" && tokens[at + 1] is { Kind: TokenKind.Word, Text: ['a' or 'b' or 'c' or 'd' or 'e'] }
        && tokens[at + 2] is { Text: ")", Touches: true } && !tokens[at + 3].Touches && (pieces.Count == 0 || pieces[0].Term == Term.ListItem);

    // 120. mmHg, q.4.h, and a line that ends between a number and its unit, or within a range: no sentence ends there.
    private static bool IsWithin(List<Token> tokens, List<Piece> pieces, int at)
    {
        var isLine = tokens[at].Kind == TokenKind.LineBreak;
        if (pieces.Count == 0 || at + 1 >= tokens.Count || !(isLine || (tokens[at] is { Text: ".", Touches: true } && pieces[^1].Term == Term.Number)))
        {
            return false;
        }

        if (tokens[at + 1].Kind == TokenKind.Number)
        {
            return isLine && pieces[^1].Term == Term.Dash && pieces.Count > 1 && pieces[^2].Term == Term.Number;
        }

        return pieces[^1].Term == Term.Number && tokens[at + 1].Kind == TokenKind.Word && TryPhrase(tokens, at + 1, out var entry, out _)
            && ((entry.Term is Term.Pressure or Term.French && (!isLine || tokens[at + 1].Text.Length > 1)) || (!isLine && entry.Term == Term.Hour && tokens[at + 1].Touches));
    }

    // Catheter no. 10.
    private static bool IsNumberMark(List<Token> tokens, List<Piece> pieces, int at) =>
        tokens[at].Text == "no" && pieces.Count > 0 && pieces[^1].Term == Term.Catheter && at + 2 < tokens.Count
        && tokens[at + 1] is { Text: ".", Touches: true } && tokens[at + 2].Kind == TokenKind.Number;

    private static Piece One(List<Token> tokens, int at, out int used)
    {
        var token = tokens[at];
        used = 1;
        if (token.Kind == TokenKind.Number)
        {
            return new Piece(Term.Number, token.Number, Unit.None, token.Span, token.Marks);
        }

        if (TryPhrase(tokens, at, out var entry, out used))
        {
            var marks = entry.Term == Term.Number ? token.Marks | TokenMarks.InWords : token.Marks;
            return new Piece(entry.Term, entry.Value, entry.Unit, TextSpan.Over(token.Span, tokens[at + used - 1].Span), marks);
        }

        used = 1;
        if (token.Text == "." && IsOfAbbreviation(tokens, at))
        {
            return new Piece(Term.Is, 0m, Unit.None, token.Span, token.Marks);
        }

        return new Piece(token.Kind == TokenKind.LineBreak ? Term.Sentence : OfSign(token.Text), 0m, Unit.None, token.Span, token.Marks);
    }

    // Max. 120, Fr. 12: the point is the abbreviation's.
    private static bool IsOfAbbreviation(List<Token> tokens, int at) =>
        at > 0 && at + 1 < tokens.Count && tokens[at].Touches && tokens[at + 1].Kind == TokenKind.Number && (tokens[at - 1].Text == "q" || IsOfShortWord(tokens, at));

    private static bool IsOfShortWord(List<Token> tokens, int at) =>
        !(at + 2 < tokens.Count && tokens[at + 2] is { Kind: TokenKind.Sign, Text: "." or ")", Touches: true })
        && (tokens[at - 1].Text is "max" or "vac" or "approx" or "sz" or "cath" or "press" or "ca" || (tokens[at - 1].Text is "fr" or "ch" && (at < 2 || tokens[at - 2].Kind != TokenKind.Number)));

    private static Term OfSign(string sign) => sign switch
    {
        "." or ";" or "|" or "!" => Term.Sentence,
        "," => Term.Comma,
        ":" => Term.Colon,
        "/" => Term.Slash,
        "(" or "[" => Term.Opens,
        ")" or "]" => Term.Closes,
        "-" => Term.Dash,
        "%" => Term.Percent,
        "•" or "*" => Term.ListItem,
        _ => Term.Word,
    };

    // A hyphen, or a slash as in w/o, that touches both words stands for the blank between them.
    private static bool TryPhrase(List<Token> tokens, int at, out Lexicon.Entry entry, out int used)
    {
        var (found, key) = (false, "");
        (entry, used) = (default, 0);
        var words = 0;
        for (var i = at; i < tokens.Count && words < Lexicon.LongestPhrase; i++)
        {
            var token = tokens[i];
            if (words > 0 && token is { Kind: TokenKind.Sign, Text: "-" or "/", Touches: true } && i + 1 < tokens.Count && tokens[i + 1] is { Kind: TokenKind.Word, Touches: true })
            {
                continue;
            }

            if (token.Kind is not (TokenKind.Word or TokenKind.Sign) || (words > 0 && token.Kind == TokenKind.Sign))
            {
                break;
            }

            var word = Spelling.Of(token.Text);
            key = words == 0 ? word : key + " " + word;
            words++;
            if (key.Length > LongestKey)
            {
                break;
            }

            if (Lexicon.TryFind(key, out var one))
            {
                (found, entry, used) = (true, one, i - at + 1);
            }
        }

        return found;
    }

    // 1) or a. where a sentence begins; a number in brackets is none.
    private static bool IsListMark(List<Token> tokens, List<Piece> pieces, int at, int depth, out int used)
    {
        used = 2;
        if (at + 2 < tokens.Count && depth == 0 && tokens[at].Text == "#" && tokens[at + 1] is { Kind: TokenKind.Number, Touches: true, Number: >= 1m and <= 9m } number && tokens[at + 2].Kind == TokenKind.Word)
        {
            // #1 … #2: a list only where it begins with the first.
            return pieces.Count == 0 ? number.Number == 1m : pieces[0].Term == Term.ListItem && number.Number > 1m;
        }

        if (at + 2 >= tokens.Count || depth > 0 || tokens[at + 1] is not { Kind: TokenKind.Sign, Touches: true } mark || tokens[at + 2].Touches)
        {
            return false;
        }

        var begins = pieces.Count == 0 || pieces[^1].Term is Term.Sentence or Term.ListItem;
        return tokens[at] switch
        {
            { Kind: TokenKind.Number, Marks: TokenMarks.None or TokenMarks.Touches, Number: >= 1m and <= 20m } => mark.Text == ")" || (mark.Text == "." && begins),
            { Kind: TokenKind.Word, Text: ['a' or 'b' or 'c' or 'd' or 'e'] } => mark.Text is ")" or "." && (begins || (mark.Text == ")" && pieces[0].Term == Term.ListItem)),
            _ => false,
        };
    }

    private const int LongestKey = 60;
}
