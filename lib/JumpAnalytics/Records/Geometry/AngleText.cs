using System.Globalization;

namespace JumpAnalytics;

/// <summary>One coordinate as written, before it is known whether it is a latitude or a longitude.</summary>
/// <param name="Degrees">Decimal degrees, negative for S, W or a minus.</param>
/// <param name="Letter">N, S, E or W; null when none is written.</param>
/// <param name="Signed">Whether a plus or minus is written.</param>
/// <param name="Form">Degrees, degrees and minutes, or degrees, minutes and seconds.</param>
/// <param name="Step">Degrees: the step of the last digit written.</param>
internal sealed record AngleText(double Degrees, char? Letter, bool Signed, PositionForm Form, double Step)
{
    private const string Marks = "°'\"";

    private static readonly string[] Names = ["degrees", "minutes", "seconds"];

    /// <summary>Whether the letter says latitude (true), longitude (false) or nothing (null).</summary>
    public bool? IsLatitude => Letter is { } letter ? letter is 'N' or 'S' : null;

    /// <summary>Reads the pieces of one coordinate: letter or sign, one to three numbers, letter.</summary>
    /// <param name="tokens">Its pieces, in order.</param>
    public static Fit<AngleText> Read(IReadOnlyList<AngleToken> tokens)
    {
        List<string> numbers = [];
        char? letter = null, sign = null;
        AngleToken? last = null;
        var closed = false;
        foreach (var token in tokens)
        {
            var afterNumber = last is { Part: AnglePart.Number };
            var reason = token.Part switch
            {
                not AnglePart.Number when last is { Part: AnglePart.Joint } joint => $"'{joint.Symbol}' stands between no two numbers.",
                AnglePart.Separator => $"'{token.Symbol}' stands inside one coordinate. {DecimalComma}",
                AnglePart.Letter when letter is not null => "one coordinate has two hemisphere letters. Write one, before or after it.",
                AnglePart.Letter when sign is not null => SignAndLetter,
                AnglePart.Sign when letter is not null => SignAndLetter,
                AnglePart.Sign when numbers.Count > 0 || sign is not null =>
                    $"a {token.Symbol} stands inside a coordinate. It may only lead.",
                AnglePart.Number when closed => "a number follows the hemisphere letter. Write a comma between latitude and longitude.",
                AnglePart.Number when numbers.Count == 3 => "a coordinate has at most three numbers: degrees, minutes, seconds.",
                AnglePart.Mark when !afterNumber => $"the sign {token.Text} follows no number.",
                AnglePart.Mark when Marks.IndexOf(token.Symbol) != numbers.Count - 1 =>
                    $"the sign {token.Text} of {Names[Marks.IndexOf(token.Symbol)]} follows number {numbers.Count}, "
                    + $"which is the {Names[numbers.Count - 1]}.",
                AnglePart.Joint when closed || !(afterNumber || last is { Part: AnglePart.Mark }) =>
                    $"'{token.Symbol}' stands between no two numbers.",
                _ => null,
            };
            if (reason is not null)
                return Refused(reason);

            if (token.Part == AnglePart.Number)
                numbers.Add(token.Text);
            else if (token.Part == AnglePart.Sign)
                sign = token.Symbol;
            else if (token.Part == AnglePart.Letter)
                (letter, closed) = (token.Symbol, numbers.Count > 0);
            last = token;
        }

        if (last is { Part: AnglePart.Joint })
            return Refused($"it ends with '{last.Value.Symbol}'.");
        return numbers.Count > 0
            ? FromNumbers(numbers, letter, sign) : Refused("a coordinate has no number. Write a comma between latitude and longitude.");
    }

    /// <summary>Why a value lies outside its range, with what it may have been meant as; null when it does not.</summary>
    /// <param name="latitude">Whether it is taken as a latitude.</param>
    public string? RangeReason(bool latitude)
    {
        var limit = latitude ? 90 : 180;
        if (Math.Abs(Degrees) <= limit)
            return null;

        var shown = Degrees.ToString("0.######", CultureInfo.InvariantCulture);
        var hint = Math.Abs(Degrees) >= 1000
            ? " If degrees and minutes are run together, write them apart: 44 30.500. "
                + "If it is UTM, begin with the zone: 11T 500000 4649776."
            : "";
        return $"{(latitude ? "latitude" : "longitude")} {shown} is outside -{limit} to {limit}.{hint}";
    }

    internal const string DecimalComma = "Write decimals with a point: 44.5, not 44,5.";

    private const string SignAndLetter = "it has both a hemisphere letter and a plus or minus. Write one of them.";

    private static Fit<AngleText> FromNumbers(List<string> numbers, char? letter, char? sign)
    {
        double degrees = 0, unit = 1;
        for (var i = 0; i < numbers.Count; i++, unit /= 60)
        {
            if (i < numbers.Count - 1 && numbers[i].Contains('.'))
                return Refused($"the {Names[i]} {PositionText.Shown(numbers[i])} have decimals and {Names[i + 1]} follow. "
                    + "Only the last number of a coordinate may have decimals; write a comma between latitude and longitude.");

            var value = double.Parse(numbers[i], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);
            if (i > 0 && value >= 60)
                return Refused($"{PositionText.Shown(numbers[i])} {Names[i]}; there are fewer than 60. Decimals are written with a point: "
                    + $"{(i == 1 ? "44.75" : "44 30.431")}.");
            degrees += value * unit;
        }

        var decimals = numbers[^1].IndexOf('.') is >= 0 and var point ? numbers[^1].Length - point - 1 : 0;
        var step = Math.Pow(10, -decimals) / Math.Pow(60, numbers.Count - 1);
        var negative = sign == '-' || letter is 'S' or 'W';
        return Fit<AngleText>.Made(new AngleText(
            negative ? -degrees : degrees, letter, sign is not null, PositionForm.DecimalDegrees + (numbers.Count - 1), step));
    }

    private static Fit<AngleText> Refused(string reason) => Fit<AngleText>.Refused(reason);
}
