using System.Collections.Frozen;
using System.Text.RegularExpressions;

namespace JumpAnalytics;

/// <summary>A number with a unit written behind it, such as <c>12 mph</c>. A unit is read where it is written out, never guessed.</summary>
internal static partial class FieldUnit
{
    private static readonly FrozenDictionary<string, string> _distances = Words("m=m meter meters metre metres mtrs;ft=ft ' foot feet;"
        + "yd=yd yds yard yards;ch=ch chs chain chains;nm=nm nmi;mi=mi mile miles;km=km kilometer kilometers kilometre kilometres");

    private static readonly FrozenDictionary<string, string> _speeds = Words("mps=mps m/s;mph=mph mi/h;kt=kt kts kn knot knots");

    private static readonly FrozenDictionary<string, string> _times = Words("s=s sec secs second seconds;min=min mins minute minutes");

    /// <summary>The number and the unit behind it; null for a text that is not of this form or has no unit of this kind.</summary>
    public static (string Number, MeasureUnit Unit)? Of(ColumnKind kind, string text)
    {
        var (words, units) = kind switch
        {
            ColumnKind.Distance => (_distances, MeasureUnit.Distances),
            ColumnKind.Speed => (_speeds, MeasureUnit.Speeds),
            ColumnKind.Duration => (_times, MeasureUnit.Times),
            _ => (null, null),
        };
        return words is not null && NumberAndUnit().Match(text) is { Success: true } m
            && words.TryGetValue(m.Groups["unit"].Value, out var suffix)
            ? (m.Groups["number"].Value, units![suffix]) : null;
    }

    /// <summary>Degrees with their sign or north behind them: <c>270°</c>, <c>270 mag</c>; no north when it states none.</summary>
    public static (string Number, bool? IsMagnetic)? Bearing(string text) => NumberAndNorth().Match(text) is { Success: true } m
        ? (m.Groups["number"].Value, m.Groups["north"].Value is { Length: > 0 } north ? north[0] is 'm' or 'M' : null) : null;

    private static FrozenDictionary<string, string> Words(string lists) => lists.Split(';').Select(l => l.Split('='))
        .SelectMany(l => l[1].Split(' ').Select(word => (Word: word, Unit: l[0])))
        .ToFrozenDictionary(w => w.Word, w => w.Unit, StringComparer.OrdinalIgnoreCase);

    [GeneratedRegex(@"^(?<number>[+-]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)) ?(?<unit>[A-Za-z/']+)\.?$")]
    private static partial Regex NumberAndUnit();

    [GeneratedRegex(@"^(?<number>[0-9]+(?:[.,][0-9]+)?) ?(?:°|deg(?:rees|s)?\b\.?)? ?(?<north>mag(?:netic)?|true|[MT])?$",
        RegexOptions.IgnoreCase)]
    private static partial Regex NumberAndNorth();
}
