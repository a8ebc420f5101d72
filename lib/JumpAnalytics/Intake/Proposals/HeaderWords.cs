using System.Text.RegularExpressions;

namespace JumpAnalytics;

/// <summary>
/// A header taken apart: the notions its words stand for, and what it states of units. A unit is only ever read, never guessed.
/// </summary>
internal sealed partial class HeaderWords
{
    private static readonly Dictionary<string, string> _longUnits =
        Words("ft=feet foot;yd=yards yard yds;m=meters metres meter metre mtrs;km=kilometers kilometres;mi=miles mile;nm=nmi;ch=chains "
            + "chain chs;mph=mph;kt=knots knot kts;mps=mps;min=minutes minute mins;s=seconds secs;km/h=kmh;paces=paces");

    /// <summary>Symbols that are words or letters of their own too; they state a unit in brackets or at the end alone.</summary>
    private static readonly Dictionary<string, string> _shortUnits =
        Words("ft=ft;yd=yd;m=m;km=km;mi=mi;nm=nm;ch=ch;kt=kt kn;min=min;s=s sec");

    private static readonly HashSet<string> _levels = ["agl", "msl", "asl", "mag", "true"];

    /// <summary>Words after which a unit or a north may not be that of the values.</summary>
    private static readonly HashSet<string> _reversing = ["not", "non", "corrected", "converted", "applied", "per", "sq", "square"];

    private HeaderWords(string header)
    {
        var text = Degrees().Replace(header, DegreeWords);
        foreach (var (pattern, word) in _spelled) text = pattern.Replace(text, $" {word} ");
        text = WordStart().Replace(text, " ");
        var tokens = Token().Matches(text).ToList();
        var plain = tokens.Select(t => t.Value.ToLowerInvariant()).ToList();
        var last = plain.FindLastIndex(t => !_levels.Contains(t));
        var (units, doubtful, notions) = (new List<string>(), new List<string>(), new List<string>());
        for (var i = 0; i < tokens.Count; i++)
        {
            if (_longUnits.TryGetValue(plain[i], out var unit) || _shortUnits.TryGetValue(plain[i], out unit))
            {
                // Drift from 3000 ft: a quantity, and no unit of the values.
                if (i > 0 && char.IsAsciiDigit(plain[i - 1][0])) IsDoubtful = true;
                else (_longUnits.ContainsKey(plain[i]) || StandsAsUnit(text, tokens[i], i == last) ? units : doubtful).Add(unit);
            }
            else if (Many().IsMatch(plain[i])) IsDoubtful = IsMultiple = true;
            else if (_reversing.Contains(plain[i])) IsDoubtful = true;
            else if (plain[i] is "mag" or "magnetic" or "degm") IsMagnetic = true;
            else if (plain[i] is "true" or "degt") IsTrue = true;
            else if (plain[i] is not ("deg" or "degs" or "degrees")) notions.AddRange(TradeWords.Notions(plain[i]));
        }
        IsAboveSea = notions.Contains("msl");
        // A lone symbol in the middle states nothing; beside another unit it makes that one doubtful.
        (Units, Notions) =
            ([.. (units.Count + doubtful.Distinct().Count() > 1 ? units.Concat(doubtful) : units).Distinct()], [.. notions.Distinct()]);
    }

    /// <summary>Suffixes of the units stated; more than one when the header names several.</summary>
    public IReadOnlyList<string> Units { get; }

    /// <summary>What the words stand for, in order.</summary>
    public IReadOnlyList<string> Notions { get; }

    public bool IsMagnetic { get; }

    public bool IsTrue { get; }

    /// <summary>Whether it speaks of hundreds or thousands of its unit.</summary>
    public bool IsMultiple { get; }

    /// <summary>Whether what it states of units may not be what the values are in.</summary>
    public bool IsDoubtful { get; }

    public bool IsAboveSea { get; }

    public static HeaderWords Of(string header) => new(header);

    private static bool StandsAsUnit(string text, Match token, bool isLast)
    {
        var before = token.Index == 0 ? ' ' : text[token.Index - 1];
        var after = token.Index + token.Length < text.Length ? text[token.Index + token.Length] : ' ';
        if (before is '(' or '[' || after is ')' or ']') return true;
        return isLast && token.Index > 0 && (token.Length > 1 || before is '_');
    }

    private static Dictionary<string, string> Words(string lists) => lists.Split(';').Select(l => l.Split('='))
        .SelectMany(l => l[1].Split(' ').Select(word => (Word: word, Unit: l[0]))).ToDictionary(w => w.Word, w => w.Unit);

    private static readonly (Regex Pattern, string Word)[] _spelled =
    [
        (Metres(), "mps"), (KilometresAnHour(), "kmh"), (MilesAnHour(), "mph"), (NauticalMiles(), "nmi"), (Aircraft(), "aircraft"),
        (Number(), "number"), (Apostrophe(), ""),
    ];

    [GeneratedRegex(@"(?:°|(?<![A-Za-z])deg(?:rees|s)?(?![A-Za-z]))[ .]*(?<north>mag\w*|true|[MT]\b)?", RegexOptions.IgnoreCase)]
    private static partial Regex Degrees();

    /// <summary>Degrees with M or T behind them are magnetic or true.</summary>
    private static string DegreeWords(Match degrees) => degrees.Groups["north"].Value.ToUpperInvariant() switch
    {
        "" => " degrees ",
        var north => north[0] == 'M' ? " magnetic " : " true ",
    };

    [GeneratedRegex(@"\bm/s(?:ec)?\b|\bmet(?:er|re)s? per sec(?:ond)?\b", RegexOptions.IgnoreCase)]
    private static partial Regex Metres();

    [GeneratedRegex(@"\bkm/hr?\b|\bkph\b", RegexOptions.IgnoreCase)]
    private static partial Regex KilometresAnHour();

    [GeneratedRegex(@"\bmi/hr?\b|\bmiles? (?:per|an) hour\b", RegexOptions.IgnoreCase)]
    private static partial Regex MilesAnHour();

    [GeneratedRegex(@"\bnautical miles?\b|\bn\.? ?mi\b", RegexOptions.IgnoreCase)]
    private static partial Regex NauticalMiles();

    [GeneratedRegex(@"\ba/c\b", RegexOptions.IgnoreCase)]
    private static partial Regex Aircraft();

    [GeneratedRegex("#")]
    private static partial Regex Number();

    [GeneratedRegex("['’]")]
    private static partial Regex Apostrophe();

    [GeneratedRegex("(?<=[a-z])(?=[A-Z])")]
    private static partial Regex WordStart();

    [GeneratedRegex("[A-Za-z0-9]+")]
    private static partial Regex Token();

    [GeneratedRegex("^(?:x?10+s?|0+s?|k|tens|tenths?|half|quarters?|dozens?|hundreds?|thousands?)$")]
    private static partial Regex Many();
}
