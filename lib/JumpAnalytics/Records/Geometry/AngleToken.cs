namespace JumpAnalytics;

/// <summary>What a piece of a latitude or longitude text is.</summary>
internal enum AnglePart
{
    /// <summary>Digits, with or without a decimal point.</summary>
    Number,

    /// <summary>A plus or a minus that gives the hemisphere.</summary>
    Sign,

    /// <summary>N, S, E or W.</summary>
    Letter,

    /// <summary>The sign of degrees, minutes or seconds.</summary>
    Mark,

    /// <summary>A colon or hyphen between the numbers of one coordinate.</summary>
    Joint,

    /// <summary>Comma, semicolon or slash, between latitude and longitude.</summary>
    Separator,
}

/// <summary>A piece of a latitude or longitude text.</summary>
/// <param name="Part">What it is.</param>
/// <param name="Text">Its characters; marks as °, ' or ", a minus as a hyphen.</param>
internal readonly record struct AngleToken(AnglePart Part, string Text)
{
    /// <summary>The first character.</summary>
    public char Symbol => Text[0];

    /// <summary>Splits a text, or says at which character it can't be understood.</summary>
    /// <param name="text">The text.</param>
    /// <param name="reason">Why it can't be split; null when it can.</param>
    public static List<AngleToken> Split(string text, out string? reason)
    {
        var plain = Plain(text);
        List<AngleToken> tokens = [];
        for (var i = 0; i < plain.Length;)
        {
            var c = plain[i];
            var length = char.IsAsciiDigit(c) ? NumberLength(plain, i) : 1;
            AnglePart? part = c switch
            {
                _ when char.IsAsciiDigit(c) => AnglePart.Number,
                'N' or 'S' or 'E' or 'W' => AnglePart.Letter,
                '°' or '\'' or '"' => AnglePart.Mark,
                ':' => AnglePart.Joint,
                ',' or ';' or '/' => AnglePart.Separator,
                '+' => AnglePart.Sign,
                '-' => Hyphen(plain, i),
                _ => null,
            };
            if (part is { } known)
            {
                tokens.Add(new AngleToken(known, plain.Substring(i, length)));
            }
            else if (c != ' ')
            {
                reason = Unknown(c);
                return [];
            }

            i += length;
        }

        reason = null;
        return tokens;
    }

    // Typographic signs become plain ones; two minute signs are a second sign.
    private static string Plain(string text) => string.Concat(text.ToUpperInvariant().Select(c => c switch
    {
        'º' or '˚' => '°',
        '′' or '’' or '‘' or '´' or '`' => '\'',
        '″' or '”' or '“' => '"',
        '−' or '–' or '‐' or '‑' => '-',
        _ when char.IsWhiteSpace(c) => ' ',
        _ => c,
    })).Replace("''", "\"", StringComparison.Ordinal);

    private static int NumberLength(string text, int start)
    {
        var end = DigitsEnd(text, start);
        if (end + 1 < text.Length && text[end] == '.' && char.IsAsciiDigit(text[end + 1]))
            end = DigitsEnd(text, end + 1);
        return end - start;
    }

    private static int DigitsEnd(string text, int start)
    {
        while (start < text.Length && char.IsAsciiDigit(text[start]))
            start++;
        return start;
    }

    // Between a number or mark and a number: part of one coordinate. Otherwise, directly before a number: a minus.
    private static AnglePart? Hyphen(string text, int at)
    {
        if (at + 1 == text.Length || !char.IsAsciiDigit(text[at + 1]))
            return null;
        return at > 0 && (char.IsAsciiDigit(text[at - 1]) || text[at - 1] is '°' or '\'') ? AnglePart.Joint : AnglePart.Sign;
    }

    private static string Unknown(char c) => c switch
    {
        '-' => "a hyphen that stands alone may be a minus or a dash. Put a minus directly before its number, "
            + "and a comma between latitude and longitude.",
        '.' => "a decimal point needs a digit on both sides, and a number has only one: 0.5, not .5; 44 30.5, not 44.30.5.",
        _ when char.IsLetter(c) => $"the letter {c} is not understood; only N, S, E and W are. A datum or remark goes into its own field.",
        _ => $"the character {(char.IsControl(c) || char.IsSurrogate(c) ? $"U+{(int)c:X4}" : c.ToString())} is not understood. "
            + "Write for instance 44 30.500 N, 116 15.250 W.",
    };
}
