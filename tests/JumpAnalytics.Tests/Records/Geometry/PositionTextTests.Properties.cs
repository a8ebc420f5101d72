using System.Globalization;
using CsCheck;

namespace JumpAnalytics.Tests.Geometry;

public partial class PositionTextTests
{
    // A fixed seed and one generator throughout: the same cases in every run. CsCheck's own Sample reseeds itself after
    // the first case.
    private const ulong Seed = 20_260_104;
    private const string Alphabet = "0123456789..   NSEWnsewTMJKnorthUTM°'\"′″º’”,;:/-−+\t\u00a0éK٣\ud83d\0";

    private static readonly string[] Seeds =
    [
        "N 64 50.431' W 147 36.262'", "44°30'15.5\"N 116°15'30.0\"W", "44.508333, -116.254167", "44,508333; -116,254167",
        "11T 500000 4649776", "UTM zone 11 north, 500000 m E, 4649776 m N", "11TNM5326799845", "11t nm 532 998", "ZAH 12345 12345",
        "44-30-15.5 N, 116-15-30.0 W", "500000 4649776", "NAD 27",
    ];

    private static readonly Gen<char> AnyLetter = Gen.Int[0, Alphabet.Length - 1].Select(i => Alphabet[i]);

    private static readonly Gen<string> AnyText = Gen.OneOf(
        Gen.String,
        AnyLetter.Array[0, 60].Select(characters => new string(characters)),
        Gen.Select(Gen.Int[0, Seeds.Length - 1], Gen.Select(Gen.Int[0, 50], Gen.Int[0, 3], AnyLetter).Array[0, 5], Mutated));

    [Fact]
    public void No_text_throws_and_every_answer_is_a_place_or_a_reason() => Sample(AnyText, 50_000, text =>
    {
        var position = PositionText.Read(text);
        Assert.Equal(position.Success, position.Reason is null);
        if (position.Value is { } reading)
            Assert.True(reading.Resolution > 0 && double.IsFinite(reading.Resolution), $"resolution {reading.Resolution}");
        else
            Assert.NotEmpty(position.Reason!);

        Answered(PositionText.ReadLatitude(text), 90);
        Answered(PositionText.ReadLongitude(text), 180);
        Assert.Equal(MgrsSquare.Read(text).Success, MgrsSquare.Read(text).Reason is null);
        Assert.Equal(Datum.Read(text).Success, Datum.Read(text).Reason is null);
    });

    [Fact]
    public void Long_runs_of_blanks_and_digits_are_answered_at_once()
    {
        var before = Environment.CpuUsage.TotalTime; // of the process: a busy machine does not count
        foreach (var filler in (char[])[' ', '1', '\t', 'N', '.', ','])
        {
            foreach (var start in (string[])["UTM", "11T", "11 N 500000", "ZAH", "44"])
            {
                PositionText.Read(start + new string(filler, 190 - start.Length) + "!");
                PositionText.Read(start + new string(filler, 190 - start.Length));
            }
        }

        Assert.InRange((Environment.CpuUsage.TotalTime - before).TotalSeconds, 0, 30); // with other tests beside it
    }

    [Fact]
    public void Any_place_written_in_any_form_is_read_back() => Sample(
        Gen.Select(Gen.Double[-90, 90], Gen.Double[-180, 180], Gen.Int[0, 2], Gen.Int[0, 5]),
        20_000,
        place =>
        {
            var (latitude, longitude, parts, style) = place;
            var text = style switch
            {
                0 => $"{Written(latitude, parts, " ")} {"SN"[latitude < 0 ? 0 : 1]}, "
                    + $"{Written(longitude, parts, " ")} {"WE"[longitude < 0 ? 0 : 1]}",
                1 => $"{"SN"[latitude < 0 ? 0 : 1]}{Written(latitude, parts, "-")} "
                    + $"{"WE"[longitude < 0 ? 0 : 1]}{Written(longitude, parts, "-")}",
                2 => $"{(latitude < 0 ? "-" : "")}{Written(latitude, parts, ":")}, "
                    + $"{(longitude < 0 ? "-" : "")}{Written(longitude, parts, ":")}",
                3 => $"{Marked(latitude, parts)}{(latitude < 0 ? "S" : "N")} {Marked(longitude, parts)}{(longitude < 0 ? "W" : "E")}",
                4 => $"{(longitude < 0 ? "w" : "e")} {Marked(longitude, parts)}/{(latitude < 0 ? "s" : "n")} {Marked(latitude, parts)}",
                _ => $"{(latitude < 0 ? "−" : "+")}{Marked(latitude, parts)} {(longitude < 0 ? "−" : "+")}{Marked(longitude, parts)}",
            };
            var reading = Read(text);
            Assert.Equal(PositionForm.DecimalDegrees + parts, reading.Form);
            Assert.InRange(reading.Position.Latitude - latitude, -1e-9, 1e-9);
            Assert.InRange(reading.Position.Longitude - longitude, -1e-9, 1e-9);
        });

    [Fact]
    public void Any_grid_place_is_read_back() => Sample(
        Gen.Select(Gen.Double[-79.9, 83.9], Gen.Double[-180, 180]),
        5_000,
        place =>
        {
            var utm = UtmPosition.From(new GeoPosition(place.Item1, place.Item2)).Value!;
            var band = GridZone.Of(new GeoPosition(place.Item1, place.Item2))!.Value.Band;
            foreach (var letter in (string[])[utm.Hemisphere.ToString(), band == 'S' ? "north" : band.ToString()])
            {
                var reading = Read(FormattableString.Invariant($"{utm.Zone}{letter} {utm.Easting:0.0000} {utm.Northing:0.0000}"));
                Assert.InRange(reading.Position.Latitude - place.Item1, -1e-9, 1e-9);
                Assert.Equal(1e-4, reading.Resolution, 15);
            }
        });

    private static void Answered(Fit<CoordinateReading> fit, double limit)
    {
        Assert.Equal(fit.Success, fit.Reason is null);
        if (fit.Value is { } reading)
        {
            Assert.InRange(reading.Degrees, -limit, limit);
            Assert.True(reading.Step is > 0 and <= 1, $"step {reading.Step}");
        }
    }

    private static string Mutated(int seed, (int Place, int Kind, char Letter)[] edits)
    {
        var text = Seeds[seed];
        foreach (var (place, kind, letter) in edits)
        {
            var at = place % (text.Length + 1);
            var rest = Math.Min(at + 1, text.Length);
            text = kind switch
            {
                0 => text.Insert(at, letter.ToString()),
                1 => text.Remove(at, rest - at),
                2 => string.Concat(text.AsSpan(0, at), letter.ToString(), text.AsSpan(rest)),
                _ => string.Concat(text, text.AsSpan(at)),
            };
        }

        return text;
    }

    // Cut into whole degrees and minutes, the last with decimals; rounding up to 60 is carried by cutting the digits.
    private static string[] Parts(double degrees, int parts)
    {
        var units = new decimal[] { 1, 60, 3600 }[parts];
        var total = decimal.Truncate((decimal)Math.Abs(degrees) * units * 10_000_000_000) / 10_000_000_000;
        List<string> numbers = [];
        for (; units > 1; units /= 60)
        {
            numbers.Add(decimal.Truncate(total / units).ToString(CultureInfo.InvariantCulture));
            total %= units;
        }

        return [.. numbers, total.ToString("0.0#########", CultureInfo.InvariantCulture)];
    }

    private static string Written(double degrees, int parts, string joint) => string.Join(joint, Parts(degrees, parts));

    private static string Marked(double degrees, int parts) =>
        string.Concat(Parts(degrees, parts).Zip("°'\"", (number, mark) => number + mark));

    private static void Sample<T>(Gen<T> gen, int cases, Action<T> check)
    {
        var random = new PCG(1, Seed);
        for (var i = 0; i < cases; i++)
        {
            var value = gen.Generate(random, null, out _);
            try
            {
                check(value);
            }
            catch (Exception error)
            {
                Assert.Fail($"Case {i}, {value}: {error}");
            }
        }
    }
}
