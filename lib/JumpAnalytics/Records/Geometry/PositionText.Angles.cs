namespace JumpAnalytics;

public static partial class PositionText
{
    private const string CommaBetween = "Write a comma between latitude and longitude: 44 30.500 N, 116 15.250 W.";

    private static Fit<PositionReading> FromAngles(string text)
    {
        var tokens = AngleToken.Split(WithDecimalPoints(text), out var reason);
        reason ??= CommaReason(text, tokens);
        if (reason is not null)
            return Refused(text, reason);

        var cut = Cut(tokens, out reason);
        if (reason is not null)
            return Refused(text, reason);

        var after = tokens[cut].Part == AnglePart.Separator ? cut + 1 : cut;
        var first = AngleText.Read(tokens.GetRange(0, cut));
        var second = AngleText.Read(tokens.GetRange(after, tokens.Count - after));
        reason = first.Reason ?? second.Reason ?? PairReason(first.Value!, second.Value!);
        return reason is null ? Joined(text, first.Value!, second.Value!) : Refused(text, reason);
    }

    private static Fit<PositionReading> Joined(string text, AngleText first, AngleText second)
    {
        var longitudeFirst = first.IsLatitude == false || second.IsLatitude == true;
        var (latitude, longitude) = longitudeFirst ? (second, first) : (first, second);
        if (latitude.RangeReason(latitude: true) is { } high)
            return Refused(text,
                high + (Math.Abs(latitude.Degrees) <= 180 ? " Latitude comes first; a longitude that comes first has E or W." : ""));
        if (longitude.RangeReason(latitude: false) is { } wide)
            return Refused(text, wide);

        var cosine = Math.Cos(double.DegreesToRadians(latitude.Degrees));
        return Fit<PositionReading>.Made(new PositionReading(
            new GeoPosition(latitude.Degrees, longitude.Degrees),
            latitude.Form,
            MetresPerDegree * Math.Max(latitude.Step, longitude.Step * cosine)));
    }

    private static string? PairReason(AngleText first, AngleText second)
    {
        if (first.IsLatitude is { } axis && axis == second.IsLatitude)
            return $"both halves are {(axis ? "latitudes" : "longitudes")}. Write one with N or S and one with E or W.";
        if ((first.Letter is null) != (second.Letter is null) && !first.Signed && !second.Signed)
            return "one half has a hemisphere letter and the other neither letter nor sign. Write a letter with both.";
        return first.Form != second.Form
            ? "latitude and longitude are written in different forms. Write both with equally many numbers: degrees, degrees and minutes, "
                + "or degrees, minutes and seconds."
            : null;
    }

    // A comma is a decimal comma beyond doubt where a semicolon or slash separates and each half has at most one, between digits.
    private static string WithDecimalPoints(string text)
    {
        var halves = text.Split(';', '/');
        return halves.Length == 2
            && halves.All(half => half.Count(c => c == ',') == (half.Contains(',') ? 1 : 0) && CommasBetweenDigits(half))
            ? text.Replace(',', '.')
            : text;
    }

    private static bool CommasBetweenDigits(string text)
    {
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == ',' && !(i > 0 && i + 1 < text.Length && char.IsAsciiDigit(text[i - 1]) && char.IsAsciiDigit(text[i + 1])))
                return false;
        }

        return true;
    }

    private static string? CommaReason(string text, List<AngleToken> tokens)
    {
        var separators = tokens.Count(token => token.Part == AnglePart.Separator);
        if (separators > 1)
            return $"more than one comma, semicolon or slash. {AngleText.DecimalComma} Then put one comma between latitude and longitude.";

        // 44,116 is 44 and 116, or 44.116 with a decimal comma.
        var bare = tokens.Count == 3 && tokens[1].Symbol == ',' && !tokens[0].Text.Contains('.') && !tokens[2].Text.Contains('.');
        return bare && tokens[0].Part == AnglePart.Number && CommasBetweenDigits(text)
            ? "the comma may be a decimal comma or stand between latitude and longitude. "
                + $"{AngleText.DecimalComma} Put a blank after a comma that separates: 44, 116."
            : null;
    }

    // Index of the piece that begins the second coordinate, or of the separator between the two.
    private static int Cut(List<AngleToken> tokens, out string? reason)
    {
        reason = null;
        var separator = tokens.FindIndex(token => token.Part == AnglePart.Separator);
        if (separator >= 0)
            return separator;

        var letters = Places(tokens, AnglePart.Letter);
        if (letters.Count >= 2)
            return letters[0] == 0 ? letters[1] : letters[0] + 1;

        var numbers = Places(tokens, AnglePart.Number);
        var sign = tokens.FindIndex(numbers.Count > 0 ? numbers[0] + 1 : 0, token => token.Part == AnglePart.Sign);
        if (sign >= 0)
            return sign;

        var degreeSigns = Enumerable.Range(0, tokens.Count).Where(i => tokens[i].Symbol == '°').ToList();
        if (degreeSigns.Count == 2 && degreeSigns[1] > 1)
            return degreeSigns[1] - 1;

        if (letters is [> 0] && letters[0] < tokens.Count - 1)
            return letters[0] + 1;

        reason = CountReason(tokens, numbers);
        return reason is null ? numbers[numbers.Count / 2] : 0;
    }

    // Without anything but blanks, only the count of the numbers tells where the longitude begins.
    private static string? CountReason(List<AngleToken> tokens, List<int> numbers)
    {
        if (numbers.Count is not (2 or 4 or 6))
            return $"{numbers.Count} {(numbers.Count == 1 ? "number is" : "numbers are")} not a latitude and a longitude. {CommaBetween}";
        if (tokens[numbers[numbers.Count / 2] - 1].Part == AnglePart.Joint)
            return $"a hyphen or colon joins the numbers where the longitude would begin. {CommaBetween}";
        if (numbers.Count == 2 && AngleText.Read(tokens).Success)
        {
            var (first, second) = (tokens[numbers[0]].Text, tokens[numbers[1]].Text);
            return $"this may be latitude {first} and longitude {second}, or one coordinate of {first} degrees {second} minutes. "
                + $"Write {first}, {second} for the former; for the latter write the other coordinate too, with a comma between.";
        }

        return null;
    }

    private static List<int> Places(List<AngleToken> tokens, AnglePart part) =>
        [.. Enumerable.Range(0, tokens.Count).Where(i => tokens[i].Part == part)];

    private static Fit<PositionReading> Refused(string text, string reason) =>
        Fit<PositionReading>.Refused($"{Shown(text)}: {reason}");
}
